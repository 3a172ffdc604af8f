import { toRateRows } from './event-rate.ts';
import { toLevel, type Interval } from './interval.ts';
import { exactRateRatio, type ExactRateRatio } from './rate-ratio-exact.ts';
import { robustRatio, type RobustRatio } from './rate-ratio-robust.ts';
import { mantelHaenszel, tabulate } from './rate-ratio-strata.ts';
import { StatisticsError } from './statistics-error.ts';
import { toCategory, type Category, type CategoryColumn, type NumberColumn } from './survival-data.ts';

export interface RateRatioData {
  /** Whole numbers. Without `group`: two of them, and the ratio is that of the first rate to the second. */
  readonly events: NumberColumn;
  readonly exposure: NumberColumn;
  /** Two levels; the first is the reference (the denominator), as everywhere in this library. */
  readonly group?: CategoryColumn;
  /** Strata whose ratio is taken to be one and the same; gives Mantel–Haenszel. */
  readonly strata?: CategoryColumn;
  /** What the rows of one subject share, such as the vehicle; gives `robust`. */
  readonly cluster?: CategoryColumn;
}

export interface RateRatioOptions {
  readonly level?: number;
  /** The ratio tested, 1 unless given. Exact method only. */
  readonly nullRatio?: number;
}

export interface RateRatio extends Interval {
  /** `exact` conditional on the total count, or `mantel-haenszel` where strata are given. */
  readonly method: 'exact' | 'mantel-haenszel';
  readonly level: number;
  /** Labels of the groups: the ratio is rate(compared) / rate(reference). */
  readonly compared: string;
  readonly reference: string;
  /** Compared, then reference. */
  readonly events: readonly [number, number];
  readonly exposure: readonly [number, number];
  /** Standard error of the log ratio; null where a count is zero. */
  readonly standardErrorLog: number | null;
  /** Exact: twice the smaller tail, in step with the limits. Mantel–Haenszel: chi-square, no continuity correction. */
  readonly pValue: number | null;
  /** Only with `method: 'exact'`: the other p-values and the mid-p limits. */
  readonly exact: ExactRateRatio | null;
  /** Only with `strata`: the ratio as if there were none, for comparison. */
  readonly crude: number | null;
  readonly robust: RobustRatio | null;
  readonly reason: string | null;
}

/**
 * Ratio of two event rates. Two counts: exact limits and p-values conditional on their sum (the limits are the
 * central, Clopper–Pearson ones), mid-p beside them. With `strata`: Mantel–Haenszel with the Greenland–Robins
 * variance. With `cluster`: `robust` limits that allow for events clustering within subjects.
 *
 * A zero count gives the value 0 or null (unbounded) with limits still exact; strata where one group has no exposure
 * tell nothing of the ratio and drop out.
 *
 * Source: Rothman, Greenland & Lash, Modern Epidemiology, ch. 14–15; Breslow & Day vol. II §3.4–3.6; Greenland &
 * Robins 1985. Robust: jackknife over clusters. Outside check: R's poisson.test
 * (reference cases rate-ratio-*), mh-nickel.
 *
 * @throws StatisticsError for counts that are not counts, groups that are not two, columns of unlike length, events
 * without exposure, a level outside (0, 1) or a null ratio not above zero.
 */
export function rateRatio(data: RateRatioData, options: RateRatioOptions = {}): RateRatio {
  const level = toLevel(options.level);
  const nullRatio = options.nullRatio ?? 1;
  if (!(nullRatio > 0 && nullRatio < Infinity))
    throw new StatisticsError('nullRatio', `${nullRatio} is not above zero`);
  const rows = toRateRows(data);
  const group = toTwoGroups(data.group, rows.events.length);
  const strata = data.strata ? toCategory('strata', data.strata, rows.events.length) : null;
  if (strata && nullRatio !== 1) throw new StatisticsError('nullRatio', 'only 1 can be tested over strata');
  const tables = tabulate(rows, group, strata);
  const events = [sum(tables.compared.events), sum(tables.reference.events)] as const;
  const exposure = [sum(tables.compared.exposure), sum(tables.reference.exposure)] as const;
  for (const side of [0, 1] as const)
    if (events[side] > 0 && exposure[side] === 0)
      throw new StatisticsError('exposure', 'a group has events but no exposure');
  const labels = { compared: group.levels[1] as string, reference: group.levels[0] as string, events, exposure, level };
  const robust = rows.cluster ? robustRatio(rows, group, strata, tables, rows.cluster, level) : null;
  if (strata) return { ...labels, ...mantelHaenszel(tables, level), crude: crudeRatio(events, exposure), robust };
  const exact = exactRateRatio(events, exposure, level, nullRatio);
  const { value, lower, upper, pValue, reason, ...rest } = exact;
  const spread = events[0] > 0 && events[1] > 0 ? Math.sqrt(1 / events[0] + 1 / events[1]) : null;
  return {
    ...{ ...labels, value, lower, upper, method: 'exact', standardErrorLog: spread, pValue },
    ...{ exact: rest, crude: null, robust, reason },
  };
}

const sum = (values: Float64Array): number => values.reduce((total, value) => total + value, 0);

const crudeRatio = (events: readonly [number, number], exposure: readonly [number, number]): number | null =>
  events[1] > 0 && exposure[0] > 0 ? (events[0] / exposure[0]) * (exposure[1] / events[1]) : null;

function toTwoGroups(group: CategoryColumn | undefined, length: number): Category {
  if (!group) {
    if (length !== 2) throw new StatisticsError('events', `has ${length} rows; two are wanted unless group is given`);
    return { levels: ['second', 'first'], codes: Int32Array.of(1, 0) };
  }
  const checked = toCategory('group', group, length);
  if (checked.levels.length !== 2)
    throw new StatisticsError('group', `has ${checked.levels.length} levels where a ratio wants two`);
  return checked;
}
