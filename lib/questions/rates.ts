import type { Estimate } from '../../shared/finding.ts';
import type { Axis, View } from '../../shared/view.ts';
import { eventRate, rateRatio, type EventRate } from '../statistics/index.ts';
import { ageAxes } from './age-axis.ts';
import { chosenPair, corrected, largerPValue, referenceGroup, type Comparison } from './comparison.ts';
import { noEstimate, toEstimate } from './estimate.ts';
import { firmnessRule } from './firmness.ts';
import { gather, placesWhere } from './gather.ts';
import type { GroupKey } from './group-keys.ts';
import { rowsByGroup, sumByGroup, type Tally, type TallyName } from './tally.ts';
import { shownLimits } from '../../shared/finding.ts';

/** Which column of the tally is the event, and at what confidence. */
export interface RateSettings {
  readonly events: TallyName;
  /** The column of the tally that was watched. */
  readonly axis: Axis;
  readonly level: number;
}

const rowsOf = (tally: Tally, groups: readonly number[]): Int32Array =>
  placesWhere(tally.rows, (row) => groups.includes(tally.group[row] as number));

/** Events per mile (or month) of each group, exact, with limits that allow for vehicles beside; null where nothing was watched. */
export function groupRates(tally: Tally, groups: number, { events, axis, level }: RateSettings): (EventRate | null)[] {
  return rowsByGroup(tally, groups).map((rows) => {
    const exposure = gather(tally.columns[axis], rows);
    if (!exposure.some((value) => value > 0)) return null;
    const data = { events: gather(tally.columns[events], rows), exposure, cluster: gather(tally.by, rows) };
    return eventRate(data, { level });
  });
}

const exact = 'exact Poisson, time-terminated';

/** Events per million wheel-end miles, or per 100 wheel-end years. */
export function rateEstimate(rate: EventRate | null, level: number, axis: Axis): Estimate {
  const { rateUnit, factor, nothingWatched: reason } = ageAxes[axis];
  const about = { level, unit: rateUnit, method: exact, factor, reason };
  return rate ? toEstimate(rate.rate, about, rate.robust?.rate) : noEstimate(about);
}

/** Wheel-end miles, or months, per event. With none the value is null and the lower limit is the exact bound T/3.689 (at 95 %). */
export function meanBetweenEstimate(rate: EventRate | null, level: number, axis: Axis): Estimate {
  const about = { level, unit: axis, method: exact };
  if (!rate) return noEstimate({ ...about, reason: ageAxes[axis].nothingWatched });
  return toEstimate(rate.meanBetween, { ...about, reason: 'no failure was seen' }, rate.robust?.meanBetween);
}

/** Rate of one group over that of another; none where either has too few events for a ratio. */
export function ratioEstimate(
  tally: Tally,
  [compared, reference]: readonly [number, number],
  { events, axis, level }: RateSettings,
): { readonly ratio: Estimate; readonly pValue: number | null } {
  const rows = rowsOf(tally, [compared, reference]);
  const counts = gather(tally.columns[events], rows);
  const codes = gather(tally.group, rows).map((group) => (group === compared ? 1 : 0));
  const about = { level, unit: 'ratio', method: 'exact conditional on the total' };
  const least = [0, 1].map((code) => counts.reduce((sum, value, row) => sum + (codes[row] === code ? value : 0), 0));
  if (Math.min(...least) < firmnessRule.thinFailures)
    return { ratio: noEstimate({ ...about, reason: 'fewer than 5 in one of the groups' }), pValue: null };
  const ratio = rateRatio(
    {
      ...{ events: counts, exposure: gather(tally.columns[axis], rows), cluster: gather(tally.by, rows) },
      group: { levels: ['reference', 'compared'], codes },
    },
    { level },
  );
  return {
    ratio: toEstimate(ratio, about, ratio.robust),
    pValue: largerPValue(ratio.pValue, ratio.robust?.pValue),
  };
}

/** Beyond so many groups a table of ratios to one of them tells nobody anything. */
const mostRatios = 6;

/** The ratio of every group but the reference to it, by group index. */
export function ratiosToReference(
  view: View,
  groups: readonly GroupKey[],
  tally: Tally,
  settings: RateSettings,
): Map<number, Estimate> {
  const reference = referenceGroup(view, groups);
  if (groups.length < 2 || groups.length > mostRatios || reference < 0) return new Map();
  return new Map(
    groups.flatMap((_, index) => {
      if (index === reference) return [];
      return [[index, ratioEstimate(tally, [index, reference], settings).ratio] as const];
    }),
  );
}

/** The pair an answer sets against each other, by rate; null where no two groups can be compared. */
export function compareRates(
  view: View,
  groups: readonly GroupKey[],
  tally: Tally,
  settings: RateSettings,
): Comparison | null {
  const events = sumByGroup(tally, settings.events, groups.length);
  const watched = sumByGroup(tally, settings.axis, groups.length);
  const score = events.map((value, index) => value / (watched[index] as number));
  const pair = chosenPair(view, groups, events, score);
  if (!pair) return null;
  const { pValue, ratio } = ratioEstimate(tally, [pair.compared, pair.reference], settings);
  return {
    ...pair,
    ratio: { value: ratio.value, ...shownLimits(ratio) },
    ...{ pValue: corrected(pValue, pair.pairs), rawPValue: pValue },
  };
}
