import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';
import { toLevel, type Interval } from './interval.ts';
import { logNormalSurvival, standardNormalQuantile } from './numeric/normal.ts';
import { StatisticsError } from './statistics-error.ts';
import type { NumberColumn } from './survival-data.ts';

export interface ProportionOptions {
  readonly level?: number;
  /** `wilson` (default): close to its level on average. `clopper-pearson`: never below it. */
  readonly method?: 'wilson' | 'clopper-pearson';
}

export interface Proportion extends Interval {
  readonly events: number;
  readonly total: number;
  readonly level: number;
  readonly method: 'wilson' | 'clopper-pearson';
  /** Why the value is null; null when it is not. */
  readonly reason: string | null;
}

/**
 * Share of `total` that are `events`, with Wilson score or Clopper–Pearson (exact) limits. Of nothing at all the
 * value is null and the limits are 0 and 1.
 *
 * Source: Newcombe 1998, Statistics in Medicine 17:857, methods 3 and 5. Outside check: reference cases prop-*.
 *
 * @throws StatisticsError for counts that are not counts, more events than total, or a level outside (0, 1).
 */
export function proportion(
  data: { readonly events: number; readonly total: number },
  options: ProportionOptions = {},
): Proportion {
  const level = toLevel(options.level);
  const method = options.method ?? 'wilson';
  const { events, total } = data;
  checkCounts(events, total, null);
  const counts = { events, total, level, method };
  if (total === 0) return { value: null, lower: 0, upper: 1, ...counts, reason: 'none counted' };
  const [lower, upper] = method === 'wilson' ? wilson(events, total, level) : clopperPearson(events, total, level);
  return { value: events / total, lower, upper, ...counts, reason: null };
}

export interface ProportionDifference extends Interval {
  readonly events: readonly [number, number];
  readonly total: readonly [number, number];
  readonly level: number;
  /** Pearson chi-square test of no difference, no continuity correction; null where it cannot be had. */
  readonly statistic: number | null;
  readonly pValue: number | null;
  readonly reason: string | null;
}

/**
 * First proportion less the second, with limits from the two Wilson intervals.
 *
 * Source: Newcombe 1998, Statistics in Medicine 17:873, method 10. Outside check: his table II, reference cases
 * prop-newcombe-a-d and prop-ucb.
 *
 * @throws StatisticsError as `proportion`, and for columns that do not have two rows.
 */
export function proportionDifference(
  data: { readonly events: NumberColumn; readonly total: NumberColumn },
  options: { readonly level?: number } = {},
): ProportionDifference {
  const level = toLevel(options.level);
  for (const name of ['events', 'total'] as const)
    if (data[name].length !== 2) throw new StatisticsError(name, `has ${data[name].length} rows where two are wanted`);
  const [x1, x2, n1, n2] = [data.events[0], data.events[1], data.total[0], data.total[1]] as number[] as Four;
  checkCounts(x1, n1, 0);
  checkCounts(x2, n2, 1);
  const counts = { events: [x1, x2] as const, total: [n1, n2] as const, level };
  if (n1 === 0 || n2 === 0)
    return { value: null, lower: -1, upper: 1, ...counts, statistic: null, pValue: null, reason: 'none counted' };
  const [p1, p2] = [x1 / n1, x2 / n2];
  const [lower1, upper1] = wilson(x1, n1, level);
  const [lower2, upper2] = wilson(x2, n2, level);
  const value = p1 - p2;
  const pooled = (x1 + x2) / (n1 + n2);
  const variance = pooled * (1 - pooled) * (1 / n1 + 1 / n2);
  return {
    value,
    lower: value - Math.hypot(p1 - lower1, upper2 - p2),
    upper: value + Math.hypot(upper1 - p1, p2 - lower2),
    ...counts,
    statistic: variance > 0 ? value ** 2 / variance : null,
    pValue: variance > 0 ? 2 * Math.exp(logNormalSurvival(Math.abs(value) / Math.sqrt(variance))) : null,
    reason: null,
  };
}

type Four = [number, number, number, number];

function checkCounts(events: number, total: number, row: number | null): void {
  for (const [name, count] of [
    ['events', events],
    ['total', total],
  ] as const)
    if (!(Number.isInteger(count) && count >= 0)) throw new StatisticsError(name, `${count} is not a count`, row);
  if (events > total) throw new StatisticsError('events', `${events} is more than the total ${total}`, row);
}

function wilson(events: number, total: number, level: number): [number, number] {
  const z = -standardNormalQuantile((1 - level) / 2);
  const share = events / total;
  const middle = (events + z ** 2 / 2) / (total + z ** 2);
  const half = (z * Math.sqrt(total * share * (1 - share) + z ** 2 / 4)) / (total + z ** 2);
  // At the ends the limit is 0 or 1 exactly; subtraction would leave a trace of either sign.
  return [events === 0 ? 0 : middle - half, events === total ? 1 : middle + half];
}

function clopperPearson(events: number, total: number, level: number): [number, number] {
  const tail = (1 - level) / 2;
  const lower = events === 0 ? 0 : betaQuantile(tail, events, total - events + 1);
  return [lower, events === total ? 1 : betaQuantile(1 - tail, events + 1, total - events)];
}
