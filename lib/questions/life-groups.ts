import { shownLimits, type Estimate, type Group } from '../../shared/finding.ts';
import type { View } from '../../shared/view.ts';
import { eventRate, type LifeFit, type SurvivalCurve } from '../statistics/index.ts';
import { hasAge } from './curve-rows.ts';
import type { Carried } from './doubts/leave-one-out.ts';
import { firmnessOfOne } from './firmness.ts';
import type { GroupKey } from './group-keys.ts';
import type { LifeCurves } from './life-curves.ts';
import { failedByHorizon, lifeAtShare, meanToHorizon, weibullEstimates, type GroupLives } from './life-estimates.ts';
import { failedUnderRenewals } from './life-renewals.ts';
import { ended, type LifeRows } from './life-rows.ts';
import { perMillionEstimate } from './rates.ts';

export interface LifeGroups {
  readonly groups: readonly Group[];
  /** The Weibull of each group; null where there is none. */
  readonly fits: readonly (LifeFit<'weibull'> | null)[];
}

/** The estimate a group's firmness is judged by: what its sentence says. */
export const mainEstimate = (estimates: Readonly<Record<string, Estimate>>): Estimate =>
  [estimates['b10Life'], estimates['failedByHorizonHadNoneBeenRenewed']].find((one) => one && one.value !== null) ??
  (estimates['failuresPerMillionMiles'] as Estimate);

/** Rows of each group, so that what is done a group at a time does not search for them. */
function rowsByGroup(codes: Int32Array, groups: number): number[][] {
  const rows: number[][] = Array.from({ length: groups }, () => []);
  for (let row = 0; row < codes.length; row++) rows[codes[row] as number]?.push(row);
  return rows;
}

function livesOf(lives: LifeRows, rows: readonly number[]): GroupLives {
  const known = rows.filter((row) => hasAge(lives, row));
  return {
    entry: Float64Array.from(known, (row) => lives.entry[row] as number),
    exit: Float64Array.from(known, (row) => lives.exit[row] as number),
    event: Uint8Array.from(known, (row) => (lives.ended[row] === ended.failed ? 1 : 0)),
    cluster: Int32Array.from(known, (row) => lives.unit[row] as number),
  };
}

function countsOf(lives: LifeRows, rows: readonly number[], start: number | null): Record<string, number> {
  const count = (test: (row: number) => boolean) => rows.reduce((sum, row) => sum + (test(row) ? 1 : 0), 0);
  const known = (row: number) => !Number.isNaN(lives.entry[row]);
  return {
    ...(start === null ? {} : { curveFromMiles: start }),
    unknownStart: count((row) => !known(row)),
    notWatched: count((row) => known(row) && !hasAge(lives, row)),
    endedBeforeCurve: count((row) => hasAge(lives, row) && start !== null && (lives.exit[row] as number) <= start),
    lateEntries: count((row) => (lives.entry[row] as number) > 0),
    renewed: count((row) => lives.ended[row] === ended.renewed),
    removedUnknown: count((row) => lives.ended[row] === ended.removedUnknown),
    inferredFailures: count((row) => lives.inferred[row] === 1),
  };
}

/** Failures per million miles at risk behind the curve, exact; zero failures give the bound. */
function rateOf(vehicles: readonly Carried[], level: number): Estimate {
  const miles = vehicles.map((vehicle) => vehicle.miles);
  if (!miles.some((value) => value > 0)) return perMillionEstimate(null, level);
  const events = vehicles.map((vehicle) => vehicle.events);
  const rate = eventRate({ events, exposure: miles, cluster: vehicles.map(({ by }) => Number(by)) }, { level });
  return perMillionEstimate(rate, level);
}

/** Every group with its counts and estimates. */
export function lifeGroups(
  keys: readonly GroupKey[],
  lives: LifeRows,
  { curves, rows, starts }: LifeCurves,
  vehicles: readonly Carried[],
  view: View,
): LifeGroups {
  const byGroup = rowsByGroup(lives.group, keys.length);
  const renewals = failedUnderRenewals(rows, starts, view);
  const fits: (LifeFit<'weibull'> | null)[] = [];
  const groups = keys.map(({ label, by }, index): Group => {
    const start = starts[index] ?? null;
    const curve = curves[index] as SurvivalCurve;
    const own = vehicles.filter(({ group }) => group === index);
    const { shape, scale, fit } = weibullEstimates(livesOf(lives, byGroup[index] ?? []), view);
    fits.push(fit);
    const estimates = {
      b10Life: lifeAtShare(curve, start, 0.1),
      medianLife: lifeAtShare(curve, start, 0.5),
      restrictedMean: meanToHorizon(curve, start, view.horizonMiles),
      failedByHorizonHadNoneBeenRenewed: failedByHorizon(curve, start, view.horizonMiles),
      failedByHorizonUnderRenewals: renewals[index] as Estimate,
      weibullShape: shape,
      weibullScale: scale,
      failuresPerMillionMiles: rateOf(own, view.level),
    };
    const failures = own.reduce((sum, { events }) => sum + events, 0);
    return {
      ...{ label, by: { ...by }, failures, miles: own.reduce((sum, { miles }) => sum + miles, 0) },
      lives: curve.censored.reduce((sum, one, place) => sum + one + (curve.events[place] as number), 0),
      firmness: firmnessOfOne(failures, shownLimits(mainEstimate(estimates))),
      counts: { ...countsOf(lives, byGroup[index] ?? [], start), vehicles: own.length },
      estimates,
    };
  });
  return { groups, fits };
}
