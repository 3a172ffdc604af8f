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
 * share of the excess is a difference over a difference: its limits are wide where the excess is
 * small, and may lie beyond 0 and 1.
 *
 * @throws StatisticsError where the two are not of the same groups and clusters.
 * Source: Therneau & Grambsch 2000 §7.1 (infinitesimal jackknife), of a function of two estimates.
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
  const excess = one - 1;
  let [ratioSquares, shareSquares] = [0, 0];
  for (let place = group; place < before.influence.length; place += groups) {
    const [own, its] = [before.influence[place] as number, after.influence[place] as number];
    ratioSquares += (its - own) ** 2;
    shareSquares += ((one * own - other * its) / excess - ((one - other) / excess ** 2) * one * own) ** 2;
  }
  const z = twoSidedQuantile(level);
  const [value, error] = [other / one, z * Math.sqrt(ratioSquares)];
  const [part, half] = [(one - other) / excess, z * Math.sqrt(shareSquares)];
  return {
    ratio: { value, lower: value * Math.exp(-error), upper: value * Math.exp(error) },
    share: excess > 0 ? { value: part, lower: part - half, upper: part + half } : none,
    level,
  };
}
