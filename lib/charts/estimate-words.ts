import type { Finding } from '../../shared/finding.ts';
import type { UnitSystem } from '../../shared/units.ts';
import { componentWords } from './component-words.ts';
import { groupSays } from './plain-words.ts';
import { earlyOf, horizonOf } from '../../shared/view.ts';
import { ageSays } from './shown-number.ts';

type Words = (finding: Finding, system: UnitSystem) => string;
const fixed =
  (text: string): Words =>
  () =>
    text;
const byHorizon =
  (before: string, after = ''): Words =>
  ({ settings }, system) =>
    `${before} ${ageSays(horizonOf(settings), settings.axis, system)}${after}`;
const byEarly: Words = ({ settings }, system) =>
  `${componentWords[settings.component].failed} within ${ageSays(earlyOf(settings), settings.axis, system)}`;
const failedBy =
  (after: string): Words =>
  (finding, system) =>
    byHorizon(`${componentWords[finding.settings.component].failed} by`, after)(finding, system);

/** What every other group's rate is set against: the group that carries no ratio itself. */
const timesReference: Words = ({ groups }) => {
  const reference = groups.find(({ estimates }) => estimates['rateRatio'] === undefined);
  return reference === undefined ? 'ratio of rates' : `times the rate of “${groupSays(reference.by)}”`;
};

/** What a ratio of hazards is against, where the question alone settles it. */
const hazardAgainst: Readonly<Record<string, string>> = {
  causes: 'times the hazard without, adjusted',
  rules: 'times the hazard, adjusted',
  dose: 'times the hazard of the middle of the window, adjusted',
  repeats: 'times the hazard after a renewal without a failure, adjusted',
  savings: 'times the hazard without, the others taken into account',
};

/** One group alone carries it: of a deviation yes against no, else the worst against the best that can be compared. */
const timesHazard: Words = ({ question, settings: { by } }) =>
  hazardAgainst[question] ??
  (by.length === 1 && by[0]?.startsWith('dev_') ? 'times the hazard of “no”' : 'times the hazard of the best compared');

/** Heads of the table's columns by the name of the estimate, in the order shown; the table adds the unit. */
const heads: Readonly<Record<string, Words>> = {
  failuresPerMillionMiles: fixed('failures'),
  meanMilesBetweenFailures: fixed('mean distance between failures'),
  failuresPerHundredWheelEndYears: fixed('failures'),
  meanMonthsBetweenFailures: fixed('mean time between failures'),
  contaminatedPerMillionMiles: fixed('soaked linings'),
  contaminatedPerHundredWheelEndYears: fixed('soaked linings'),
  contaminatedShareOfLeaks: fixed('leaks that reached the lining'),
  contaminatedShareIfUnknownNo: fixed('had no unknown one'),
  contaminatedShareIfUnknownYes: fixed('had every unknown one'),
  rateRatio: timesReference,
  hazardRatio: timesHazard,
  failedByHorizonHadNoneBeenRenewed: failedBy(', had none been renewed'),
  failedByHorizonUnderRenewals: failedBy(', under today’s renewals'),
  b10Life: fixed('one in ten by'),
  medianLife: fixed('half by'),
  restrictedMean: (finding, system) =>
    byHorizon(finding.settings.axis === 'months' ? 'mean life in the first' : 'mean distance in the first')(
      finding,
      system,
    ),
  weibullShape: fixed('Weibull shape'),
  observedFailures: fixed('failures seen'),
  expectedFailures: ({ question }) =>
    question === 'ahead' ? 'failures expected ahead' : 'failures expected of like work',
  expectedSoakedLinings: fixed('soaked linings expected ahead'),
  expectedCost: fixed('cost expected ahead'),
  observedToExpected: ({ question }) =>
    question === 'ahead' ? 'seen so far, times what the fit expects' : 'times the expected',
  shrunkenRatio: fixed('drawn to the average'),
  crudeFailuresPerMillionMiles: fixed('failures, whatever the work'),
  comebackWithin30Days: fixed('back within 30 days'),
  comebackWithin90Days: fixed('back within 90 days'),
  observedToExpectedWithDeviations: fixed('times the expected, deviations taken into account'),
  changeWithDeviations: fixed('moved by recorded deviations, times'),
  excessWithDeviations: fixed('excess that goes with recorded deviations'),
  deviationsTold: fixed('deviations written down or ruled out'),
  hazardRatioWithOthers: fixed('the other deviations too'),
  crudeHazardRatio: fixed('nothing taken into account'),
  earlyHazardRatio: fixed('early'),
  laterHazardRatio: fixed('later'),
  otherSideHazardRatio: fixed('within the same axle'),
  sameVehicleHazardRatio: fixed('within the same vehicle'),
  shadowHazardRatio: fixed('dealt out at random, what chance alone shows'),
  hazardRatioIfUnknownYes: fixed('had every unknown life had it'),
  hazardRatioIfUnknownNo: fixed('had no unknown life had it'),
  restrictedMeanDifference: byHorizon('mean life with it, less that of like lives without, in the first'),
  crudeRestrictedMeanDifference: byHorizon(
    'mean life with it, less that without, nothing taken into account, in the first',
  ),
  failuresPerMillionMilesWithout: fixed('failures without it'),
  failuresPerHundredWheelEndYearsWithout: fixed('failures without it'),
  failedByHorizonHadNoneBeenRenewedWithout: failedBy(' without it, had none been renewed'),
  failedByHorizonUnderRenewalsWithout: failedBy(' without it, under today’s renewals'),
  excessShareAtHorizon: fixed('share of failures in excess'),
  excessFailuresPerThousand: fixed('failures in excess of 1,000 installations'),
  failedWithinEarly: byEarly,
  foundByHorizon: byHorizon('found leaking by'),
  begunByHorizon: byHorizon('begun to leak by'),
  b10Found: fixed('one in ten found leaking by'),
  b10Begun: fixed('one in ten begun to leak by'),
  begunByHorizonLastCheckMissed: byHorizon('begun by', ', last dry check in grease not believed'),
  checksMade: fixed('checks'),
  chanceACheckSees: fixed('chance a check sees a leak'),
  foundByHorizonLagAlone: byHorizon('found by', ' from the looking alone'),
  leakNotSoakedByHorizon: byHorizon('leaked first, lining not soaked, by'),
  soakedLiningByHorizon: byHorizon('soaked the lining first by'),
  bearingFailureByHorizon: byHorizon('bearing failed first by'),
  renewalMiles: fixed('renew at'),
  savingPerMillionMiles: fixed('saved over running to failure'),
  savingShare: fixed('share saved'),
  costAtRenewal: fixed('cost, renewed then'),
  costRunToFailure: fixed('cost, run to failure'),
  costAtProcedureInterval: fixed('cost at the procedure’s interval'),
  failedByRenewal: ({ settings }) => `${componentWords[settings.component].failed} before renewal`,
  earlyFailuresPerThousand: ({ settings }, system) =>
    `early failures, within ${ageSays(settings.earlyMiles, 'miles', system)}`,
  liningShare: fixed('failures that soaked the lining'),
  roadCallShare: fixed('failures that were road calls'),
  eValue: fixed('hidden strength needed'),
  hazardRatioAfterBefore: fixed('times as often after as before'),
  hazardRatioAgainstComparison: fixed('times that of the other shops'),
  hazardRatioWithoutSpell: fixed('without the spell before'),
  prevalenceBefore: fixed('jobs with a deviation, before'),
  prevalenceAfter: fixed('jobs with a deviation, after'),
  prevalenceDifference: fixed('after less before'),
  prevalenceDifferenceLikeForLike: fixed('after less before, deviation by deviation'),
  prevalence: fixed('jobs with it'),
  fallsTo: fixed('falls to'),
  failuresFewerPerThousand: fixed('failures fewer of 1,000 installations'),
  failuresFewerPerYear: fixed('failures fewer a year'),
  failuresFewerShare: fixed('share of failures fewer'),
  moneySavedPerThousand: fixed('cost fewer of 1,000 installations'),
  moneySavedPerYear: fixed('cost fewer a year'),
};

/** Counts a reader sees beside the estimates; the CSV has all of them. */
export const countHeads: Readonly<Record<string, string>> = {
  vehicles: 'vehicles',
  leaksSoaked: 'leaks, lining soaked',
  leaksClean: 'leaks, lining clean',
  leaksUnknown: 'leaks, lining not told',
  livesWithout: 'lives without',
  failuresWithout: 'failures without',
  livesUnknown: 'lives not known',
  discordantPairs: 'axles with unlike sides',
  eventsNeeded: 'failures still needed',
  livesBefore: 'lives before',
  failuresBefore: 'failures before',
  livesAfter: 'lives after',
  failuresAfter: 'failures after',
};

/** Known estimates in the order of their heads, any other after them as the finding has it. */
export function estimateOrder(names: readonly string[]): string[] {
  const known = Object.keys(heads).filter((name) => names.includes(name));
  return [...known, ...names.filter((name) => !known.includes(name) && !fileOnly.has(name))];
}

/** Of use only to whoever computes on: in the files, not on screen. */
const fileOnly = new Set(['weibullScale']);

/** `meanMilesBetween` → `mean miles between`: how a name without an entry is written. */
export const spacedName = (name: string): string => name.replace(/([a-z])([A-Z0-9])/g, '$1 $2').toLowerCase();

export const estimateHead = (name: string, finding: Finding, system: UnitSystem): string =>
  heads[name]?.(finding, system) ?? spacedName(name);
