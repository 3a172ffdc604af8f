import { twoSidedQuantile } from './confidence-limits.ts';
import type { Interval } from './interval.ts';
import type { ObservedExpected } from './observed-expected.ts';
import { StatisticsError } from './statistics-error.ts';

/** What taking more into account does to the ratio of one group. */
export interface ObservedExpectedChange {
  /** The ratio with more taken into account over the ratio before. */
  readonly ratio: Interval;
  /** (ratio before − ratio with more) / (ratio before − 1): the part of the excess that goes; null where there is none. */
  readonly share: Interval;
  readonly level: number;
}

const none: Interval = { value: null, lower: null, upper: null };

/**
 * How far the ratio of a group moves from one comparison to another of the same rows in the same
 * clusters that takes more into account. The two ratios move together; the limits come from what
 * each cluster adds to both, so that the change is not taken as one of two ratios unrelated. The
 * share of the excess is a difference over a difference, with Fieller's limits: none where the excess
 * may be nothing, wide where it is small, and maybe beyond 0 and 1.
 *
 * @throws StatisticsError where the two are not of the same groups and clusters.
 * Source: Therneau & Grambsch 2000 §7.1 (infinitesimal jackknife), of a function of two estimates; Fieller 1954.
 * Outside check: the jackknife by leaving clusters out, in the tests.
 */
export function observedExpectedChange(
  before: ObservedExpected,
  after: ObservedExpected,
  group: number,
): ObservedExpectedChange {
  const groups = before.levels.length;
  if (after.levels.length !== groups || after.influence.length !== before.influence.length)
    throw new StatisticsError('after', 'is not of the same groups and clusters');
  const { level } = before;
  const [one, other] = [before.ratio[group], after.ratio[group]];
  if (!one || !other || before.influence.length === 0) return { ratio: none, share: none, level };
  const error = twoSidedQuantile(level);
  const excess = one - 1;
  let squares = 0;
  const sums = { gone: 0, both: 0, excess: 0 };
  for (let place = group; place < before.influence.length; place += groups) {
    const [own, its] = [before.influence[place] as number, after.influence[place] as number];
    squares += (its - own) ** 2;
    sums.gone += (one * own - other * its) ** 2;
    sums.both += (one * own - other * its) * one * own;
    sums.excess += (one * own) ** 2;
  }
  const reach = error * Math.sqrt(squares);
  const value = other / one;
  return {
    ratio: { value, lower: value * Math.exp(-reach), upper: value * Math.exp(reach) },
    share: excess > 0 ? { value: (one - other) / excess, ...fieller(one - other, excess, sums, error ** 2) } : none,
    level,
  };
}

/**
 * The shares f for which gone − f · excess lies within its error: a quadratic in f, bounded only
 * where the excess itself is surely not nothing.
 */
function fieller(
  gone: number,
  excess: number,
  sums: { readonly gone: number; readonly both: number; readonly excess: number },
  square: number,
): { lower: number | null; upper: number | null } {
  const bend = excess ** 2 - square * sums.excess;
  const slope = gone * excess - square * sums.both;
  const root = slope ** 2 - bend * (gone ** 2 - square * sums.gone);
  if (!(bend > 0) || root < 0) return { lower: null, upper: null };
  return { lower: (slope - Math.sqrt(root)) / bend, upper: (slope + Math.sqrt(root)) / bend };
}
