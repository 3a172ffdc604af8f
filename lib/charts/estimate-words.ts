import type { Finding } from '../../shared/finding.ts';
import type { UnitSystem } from '../../shared/units.ts';
import { componentWords } from './component-words.ts';
import { distanceSays } from './shown-number.ts';

type Words = (finding: Finding, system: UnitSystem) => string;
const fixed =
  (text: string): Words =>
  () =>
    text;
const byHorizon =
  (before: string, after = ''): Words =>
  ({ settings }, system) =>
    `${before} ${distanceSays(settings.horizonMiles, system)}${after}`;
const failedBy =
  (after: string): Words =>
  (finding, system) =>
    byHorizon(`${componentWords[finding.settings.component].failed} by`, after)(finding, system);

/** Heads of the table's columns, by the name of the estimate; the unit is added by the table. */
const heads: Readonly<Record<string, Words>> = {
  failedByHorizon: failedBy(''),
  failedByHorizonHadNoneBeenRenewed: failedBy(', had none been renewed'),
  failedByHorizonUnderRenewals: failedBy(', under today’s renewals'),
  survivalAtHorizon: byHorizon('still in service at'),
  b10Life: fixed('one in ten by'),
  medianLife: fixed('half by'),
  restrictedMean: byHorizon('mean distance in the first'),
  weibullShape: fixed('Weibull shape'),
  weibullScale: fixed('Weibull scale'),
  failuresPerMillionMiles: fixed('failures'),
  meanMiles: fixed('mean distance between failures'),
  rateRatio: fixed('times the first group'),
  contaminatedPerMillionMiles: fixed('soaked linings'),
  contaminatedShareOfLeaks: fixed('share of leaks that reached the lining'),
};

/** `meanMilesBetween` → `mean miles between`: how a name without an entry is written. */
export const spacedName = (name: string): string => name.replace(/([a-z])([A-Z0-9])/g, '$1 $2').toLowerCase();

export const estimateHead = (name: string, finding: Finding, system: UnitSystem): string =>
  heads[name]?.(finding, system) ?? spacedName(name);
