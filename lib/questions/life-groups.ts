import { horizonOf } from '../../shared/view.ts';
import type { View } from '../../shared/view.ts';
import { shownLimits, type Estimate, type Group } from '../../shared/finding.ts';
import { eventRate, type LifeFit, type SurvivalCurve } from '../statistics/index.ts';
import type { Asking } from './asking.ts';
import { hasAge } from './curve-rows.ts';
import type { Carried } from './doubts/leave-one-out.ts';
import { firmnessOfOne } from './firmness.ts';
import { gather, placesWhere } from './gather.ts';
import type { GroupKey } from './group-keys.ts';
import type { LifeCurves } from './life-curves.ts';
import { failedByHorizon, lifeAtShare, meanToHorizon, weibullEstimates, type GroupLives } from './life-estimates.ts';
import { lifeCounts } from './life-counts.ts';
import { failedUnderRenewals } from './life-renewals.ts';
import { ended, type LifeRows } from './life-rows.ts';
import { rateName } from './age-axis.ts';
import { rateEstimate } from './rates.ts';
import { watchedByGroup } from './watched-by-group.ts';

export interface LifeGroups {
  readonly groups: readonly Group[];
  /** The Weibull of each group; null where there is none. */
  readonly fits: readonly (LifeFit<'weibull'> | null)[];
}

/** The estimate a group's firmness is judged by: what its sentence says. */
export const mainEstimate = (estimates: Readonly<Record<string, Estimate>>): Estimate =>
  [estimates['b10Life'], estimates['failedByHorizonHadNoneBeenRenewed']].find((one) => one && one.value !== null) ??
  ((estimates[rateName('failures', 'miles')] ?? estimates[rateName('failures', 'months')]) as Estimate);

function livesOf(lives: LifeRows, group: number): GroupLives {
  const known = placesWhere(lives.rows, (row) => lives.group[row] === group && hasAge(lives, row));
  return {
    entry: gather(lives.entry, known),
    exit: gather(lives.exit, known),
    event: gather(lives.ended, known).map((code) => (code === ended.failed ? 1 : 0)),
    cluster: gather(lives.unit, known),
  };
}

/** Failures by what was at risk behind the curve, exact; zero failures give the bound. */
function rateOf({ events, watched, by }: Carried, own: Int32Array, { level, axis }: View): Estimate {
  const exposure = gather(watched, own);
  if (!exposure.some((value) => value > 0)) return rateEstimate(null, level, axis);
  const rate = eventRate({ events: gather(events, own), exposure, cluster: gather(by, own) }, { level });
  return rateEstimate(rate, level, axis);
}

const sumOf = (column: Float64Array, places: Int32Array): number =>
  places.reduce((sum, place) => sum + (column[place] as number), 0);

/** The age a curve starts at, in what its axis counts. */
const startCount = (start: number | null, { axis }: View): Record<string, number> =>
  start === null ? {} : { [axis === 'months' ? 'curveFromMonths' : 'curveFromMiles']: start };

/** Every group with its counts and estimates. */
export function lifeGroups(
  keys: readonly GroupKey[],
  lives: LifeRows,
  { curves, rows, starts }: LifeCurves,
  vehicles: Carried,
  { view, words }: Pick<Asking, 'view' | 'words'>,
): LifeGroups {
  const counts = lifeCounts(lives, starts);
  const watched = watchedByGroup(rows, lives);
  const byHorizon = curves.map((curve, index) => failedByHorizon(curve, starts[index] ?? null, horizonOf(view), words));
  const renewals = failedUnderRenewals(rows, byHorizon, view);
  const fits: (LifeFit<'weibull'> | null)[] = [];
  const groups = keys.map(({ label, by }, index): Group => {
    const start = starts[index] ?? null;
    const curve = curves[index] as SurvivalCurve;
    const own = placesWhere(vehicles.group.length, (place) => vehicles.group[place] === index);
    const { shape, scale, fit } = weibullEstimates(livesOf(lives, index), view);
    fits.push(fit);
    const estimates = {
      b10Life: lifeAtShare(curve, start, 0.1, words),
      medianLife: lifeAtShare(curve, start, 0.5, words),
      restrictedMean: meanToHorizon(curve, start, horizonOf(view), words),
      failedByHorizonHadNoneBeenRenewed: byHorizon[index] as Estimate,
      failedByHorizonUnderRenewals: renewals[index] as Estimate,
      weibullShape: shape,
      weibullScale: scale,
      [rateName('failures', view.axis)]: rateOf(vehicles, own, view),
    };
    const failures = sumOf(vehicles.events, own);
    return {
      ...{ label, by: { ...by }, failures, miles: watched.miles[index] as number },
      lives: curve.censored.reduce((sum, one, place) => sum + one + (curve.events[place] as number), 0),
      firmness: firmnessOfOne(failures, shownLimits(mainEstimate(estimates))),
      counts: {
        ...{ ...counts[index], ...startCount(start, view), vehicles: own.length },
        // A lives table that was opened need not tell the days.
        ...(Number.isNaN(watched.years[index]) ? {} : { wheelEndYears: watched.years[index] as number }),
      },
      estimates,
    };
  });
  return { groups, fits };
}
