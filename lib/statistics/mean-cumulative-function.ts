import { clusterLabels, type ClusterLabels } from './cluster-labels.ts';
import { clusterVariance, type Influence } from './cluster-variance.ts';
import {
  totalLimits,
  toTotalInterval,
  twoSidedQuantile,
  type CurveLimits,
  type TotalInterval,
} from './confidence-limits.ts';
import { toLevel } from './interval.ts';
import { nelsonVariance } from './nelson-variance.ts';
import { recurrentRows, type RecurrentData, type RecurrentRows } from './recurrent-rows.ts';
import { riskCounts } from './risk-counts.ts';
import { riskOrder, type RiskOrder } from './risk-order.ts';
import { lastAtOrBefore } from './survival-at.ts';
import type { Codes } from './survival-data.ts';

export interface MeanCumulativeOptions {
  /** Confidence level, default 0.95. */
  readonly level?: number;
  /** Scale on which the limits are symmetric: `log` (default, always positive) or `plain`. */
  readonly interval?: TotalInterval;
  /** Adds Nelson's unbiased variance (for unweighted rows). */
  readonly nelson?: boolean;
}

/** Mean number of events a subject, by time. Arrays share one length and order: distinct event times, ascending. */
export interface MeanCumulativeCurve {
  readonly group: string;
  readonly time: Float64Array;
  /** Subjects under observation just before each time. */
  readonly atRisk: Float64Array;
  readonly events: Float64Array;
  readonly mean: Float64Array;
  /** Robust, over subjects: right whatever way a subject's events hang together. */
  readonly standardError: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** √Σ d/n²: right only if events come as in a Poisson process, each independent of the last. */
  readonly poissonStandardError: Float64Array;
  /** Unbiased, may be negative; null from where fewer than two subjects are left, and with weights. */
  readonly nelsonVariance?: readonly (number | null)[];
  readonly level: number;
  readonly interval: TotalInterval;
  /** Last time under observation: up to here the curve holds its last value. */
  readonly end: number;
  readonly subjects: number;
  /** Clusters of subjects (wheel ends of a vehicle), where given; their error is left out under two clusters. */
  readonly clusters?: number;
  readonly robustStandardError?: Float64Array;
  readonly robustLower?: Float64Array;
  readonly robustUpper?: Float64Array;
}

/**
 * Mean cumulative function of recurrent events by group, with late entry, gaps, weights and several events
 * at once: Σ d/n, n subjects under observation on (entry, exit]. How rows are given: {@link RecurrentData}.
 * One curve a level of `group`; without it one named `all`. No limits are given below two subjects: the
 * error of one subject cannot be known, so `standardError` is then the Poisson one.
 *
 * Source: Nelson 2003, Recurrent Events Data Analysis; robust: Lawless & Nadeau 1995; Nelson's variance as
 * in Meeker & Escobar 1998 §16.2.3. Outside check: R survival 3.5-3 `survfit(id=)` on cgd and the formulas
 * of the books on valve seats and on simulated late entry, 1e-8.
 *
 * @throws StatisticsError naming the argument and row: a subject's rows overlap, an event while its subject
 * is not watched, counts that are not whole from 0 to 255, exit < entry, level outside (0, 1).
 */
export function meanCumulativeFunction(
  data: RecurrentData,
  options: MeanCumulativeOptions = {},
): MeanCumulativeCurve[] {
  const level = toLevel(options.level);
  const interval = toTotalInterval(options.interval);
  const rows = recurrentRows(data);
  const parts = { count: rows.group.levels.length, codes: rows.group.codes };
  const order = riskOrder(rows.exit, rows.entry, parts, rows.event);
  const ofSubjects = clusterLabels(rows.subject.count);
  const ofClusters = clusterLabels(rows.cluster?.count ?? 0);
  return rows.group.levels.map((group, part) => {
    const steps = eventSteps(order, part, rows);
    const { time, atRisk, events, mean, end } = steps;
    const poissonStandardError = poissonError(steps);
    const bySubject = robustError(order, part, rows, rows.subject, ofSubjects, steps);
    const subjects = bySubject.clusters;
    const standardError = subjects > 1 ? bySubject.standardError : poissonStandardError;
    const limits = totalLimits(mean, standardError, atRisk, interval, level);
    return {
      ...{ group, time, atRisk, events, mean, standardError, ...limits },
      ...{ poissonStandardError, level, interval, end, subjects },
      ...(options.nelson ? { nelsonVariance: nelsonVariance(order, part, rows, steps) } : {}),
      ...(rows.cluster ? clusterPart(order, part, rows, rows.cluster, ofClusters, steps, interval, level) : {}),
    };
  });
}

/** What the curve is made of; `places` are where its times lie among all distinct exits. */
interface EventSteps {
  readonly time: Float64Array;
  readonly atRisk: Float64Array;
  readonly events: Float64Array;
  readonly mean: Float64Array;
  readonly end: number;
  readonly places: Uint32Array;
  readonly allPlaces: number;
}

function eventSteps(order: RiskOrder, part: number, rows: RecurrentRows): EventSteps {
  const all = riskCounts(order, part, rows);
  const totals = eventTotals(order, part, rows, all.time);
  const places = Uint32Array.from(totals.keys()).filter((place) => (totals[place] as number) > 0);
  const pick = (values: Float64Array): Float64Array => Float64Array.from(places, (place) => values[place] as number);
  const [time, atRisk, events] = [pick(all.time), pick(all.atRisk), pick(totals)];
  let sum = 0;
  const mean = events.map((d, step) => (sum += d / (atRisk[step] as number)));
  return { time, atRisk, events, mean, end: all.time[all.time.length - 1] ?? 0, places, allPlaces: totals.length };
}

/** Events at each distinct exit; a row may carry several. */
function eventTotals(order: RiskOrder, part: number, rows: RecurrentRows, times: Float64Array): Float64Array {
  const totals = new Float64Array(times.length);
  const end = order.start[part + 1] as number;
  for (let k = order.start[part] as number, place = 0; k < end; k++) {
    if ((order.time[k] as number) > (times[place] as number)) place++;
    const row = order.rows[k] as number;
    const weight = rows.weight === null ? 1 : (rows.weight[row] as number);
    totals[place] = (totals[place] as number) + weight * (rows.event[row] as number);
  }
  return totals;
}

function poissonError({ events, atRisk }: EventSteps): Float64Array {
  let sum = 0;
  return events.map((d, step) => {
    sum += d / (atRisk[step] as number) ** 2;
    return Math.sqrt(sum);
  });
}

interface RobustError {
  readonly standardError: Float64Array;
  readonly atRisk: Int32Array;
  readonly clusters: number;
}

/** A row of weight one moves the mean by −d/n² at each event time at risk and by 1/n at each event of its own. */
function robustError(
  order: RiskOrder,
  part: number,
  rows: RecurrentRows,
  cluster: Codes,
  labels: ClusterLabels,
  { places, allPlaces, atRisk, events }: EventSteps,
): RobustError {
  const influence: Influence = {
    whileAtRisk: new Float64Array(allPlaces),
    atEvent: new Float64Array(allPlaces),
  };
  places.forEach((place, step) => {
    const n = atRisk[step] as number;
    influence.whileAtRisk[place] = -(events[step] as number) / (n * n);
    influence.atEvent[place] = 1 / n;
  });
  const sums = clusterVariance(order, part, { ...rows, cluster }, influence, labels);
  return {
    standardError: Float64Array.from(places, (place) => Math.sqrt(sums.variance[place] as number)),
    atRisk: Int32Array.from(places, (place) => sums.atRisk[place] as number),
    clusters: sums.clusters,
  };
}

function clusterPart(
  order: RiskOrder,
  part: number,
  rows: RecurrentRows,
  cluster: Codes,
  labels: ClusterLabels,
  steps: EventSteps,
  interval: TotalInterval,
  level: number,
): Pick<MeanCumulativeCurve, 'clusters' | 'robustStandardError' | 'robustLower' | 'robustUpper'> {
  const { standardError, atRisk, clusters } = robustError(order, part, rows, cluster, labels, steps);
  if (clusters < 2) return { clusters };
  const limits = totalLimits(steps.mean, standardError, atRisk, interval, level);
  return { clusters, robustStandardError: standardError, robustLower: limits.lower, robustUpper: limits.upper };
}

/** A difference of two means by time. */
export interface MeanCumulativeDifference {
  readonly time: Float64Array;
  readonly difference: Float64Array;
  readonly standardError: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** From the cluster errors of both curves, where both have them. */
  readonly robustStandardError?: Float64Array;
  readonly robustLower?: Float64Array;
  readonly robustUpper?: Float64Array;
}

/**
 * Difference of two mean cumulative functions, `curve` minus `other`, at the event times of either while
 * both groups are under observation, with limits difference ± z·se on its own scale. The groups are taken
 * as independent; where a cluster has subjects in both, events that come together cancel in the difference,
 * and the true error is then the smaller one.
 *
 * @throws StatisticsError for a level outside (0, 1).
 * Source: Nelson 2003 §5.2; Lawless & Nadeau 1995 §3. Outside check: the two-group cases of
 * `meanCumulativeFunction`, 1e-8.
 */
export function meanCumulativeDifference(
  curve: MeanCumulativeCurve,
  other: MeanCumulativeCurve,
  options: { readonly level?: number } = {},
): MeanCumulativeDifference {
  const z = twoSidedQuantile(toLevel(options.level ?? curve.level));
  const end = Math.min(curve.end, other.end);
  const time = Float64Array.from(new Set([...curve.time, ...other.time]))
    .sort()
    .filter((at) => at <= end);
  const read = (of: MeanCumulativeCurve, values: Float64Array, at: number): number =>
    values[lastAtOrBefore(of.time, at)] ?? 0;
  const difference = time.map((at) => read(curve, curve.mean, at) - read(other, other.mean, at));
  const around = (one: Float64Array, two: Float64Array): { se: Float64Array } & CurveLimits => {
    const se = time.map((at) => Math.hypot(read(curve, one, at), read(other, two, at)));
    const lower = difference.map((value, step) => value - z * (se[step] as number));
    return { se, lower, upper: difference.map((value, step) => value + z * (se[step] as number)) };
  };
  const { se: standardError, lower, upper } = around(curve.standardError, other.standardError);
  if (!curve.robustStandardError || !other.robustStandardError)
    return { time, difference, standardError, lower, upper };
  const robust = around(curve.robustStandardError, other.robustStandardError);
  return {
    ...{ time, difference, standardError, lower, upper },
    ...{ robustStandardError: robust.se, robustLower: robust.lower, robustUpper: robust.upper },
  };
}
