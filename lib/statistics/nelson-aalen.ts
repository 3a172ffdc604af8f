import { checkLives, eachRowACluster, toEvents } from './checked-lives.ts';
import { clusterLabels } from './cluster-labels.ts';
import { clusterVariance, type Influence } from './cluster-variance.ts';
import { toTotalInterval, totalLimits, type TotalInterval } from './confidence-limits.ts';
import { toLevel } from './interval.ts';
import { riskCounts, type RiskCounts } from './risk-counts.ts';
import { riskOrder } from './risk-order.ts';
import type { SurvivalData } from './survival-data.ts';

export interface NelsonAalenOptions {
  /** Confidence level, default 0.95. */
  readonly level?: number;
  /** Scale on which the limits are symmetric: `log` (default) or `plain`. */
  readonly interval?: TotalInterval;
  /** Σ d/n² (`aalen`, default), or Σ d(n − d)/(n²(n − 1)) (`binomial`), which counts ties as ties. */
  readonly variance?: 'aalen' | 'binomial';
  /** Robust limits with every row as its own cluster; `cluster` implies it. */
  readonly robust?: boolean;
}

/** The cumulative hazard of one group. Arrays share one length and order: distinct exit times, ascending. */
export interface CumulativeHazardCurve extends RiskCounts {
  readonly group: string;
  readonly cumulativeHazard: Float64Array;
  readonly standardError: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  readonly level: number;
  readonly interval: TotalInterval;
  readonly clusters?: number;
  readonly robustStandardError?: Float64Array;
  readonly robustLower?: Float64Array;
  readonly robustUpper?: Float64Array;
}

/**
 * Nelson–Aalen cumulative hazard Σ d/n by group; rows, ties, late entry, weights, groups and clusters as
 * in `kaplanMeier`. Before the first event the hazard is 0 and, on the log scale, its upper limit the
 * exact zero-event bound −log(α/2)/n with n the fewest at risk so far.
 *
 * Source: Nelson 1972; Aalen 1978; Klein & Moeschberger (2nd ed.) §4.2, 4.3; `binomial`: Klein 1991.
 * Outside check: R survival 3.5-3 `survfit` on genfan, aml, nickel (late entry) and imotor, 1e-9.
 *
 * @throws StatisticsError naming the argument and row, as `kaplanMeier`.
 */
export function nelsonAalen(data: SurvivalData, options: NelsonAalenOptions = {}): CumulativeHazardCurve[] {
  const level = toLevel(options.level);
  const interval = toTotalInterval(options.interval);
  const lives = checkLives(data);
  const event = toEvents(data.event, lives.rows, 1);
  const parts = { count: lives.group.levels.length, codes: lives.group.codes };
  const order = riskOrder(lives.exit, lives.entry, parts, event);
  const cluster = lives.cluster ?? (options.robust ? eachRowACluster(lives.rows) : null);
  const labels = clusterLabels(cluster?.count ?? 0);
  return lives.group.levels.map((group, part) => {
    const counts = riskCounts(order, part, lives);
    const { cumulativeHazard, standardError } = cumulate(counts, options.variance ?? 'aalen');
    const limits = totalLimits(cumulativeHazard, standardError, counts.atRisk, interval, level);
    const curve = { group, ...counts, cumulativeHazard, standardError, ...limits, level, interval };
    if (!cluster) return curve;
    const columns = { ...lives, event, cluster };
    const sums = clusterVariance(order, part, columns, hazardInfluence(counts), labels);
    if (sums.clusters < 2) return { ...curve, clusters: sums.clusters };
    const robustStandardError = sums.variance.map(Math.sqrt);
    const { lower, upper } = totalLimits(cumulativeHazard, robustStandardError, sums.atRisk, interval, level);
    return { ...curve, clusters: sums.clusters, robustStandardError, robustLower: lower, robustUpper: upper };
  });
}

function cumulate(
  { atRisk, events }: RiskCounts,
  kind: 'aalen' | 'binomial',
): { cumulativeHazard: Float64Array; standardError: Float64Array } {
  const cumulativeHazard = new Float64Array(atRisk.length);
  const standardError = new Float64Array(atRisk.length);
  let hazard = 0;
  let variance = 0;
  for (let place = 0; place < atRisk.length; place++) {
    const d = events[place] as number;
    if (d > 0) {
      const n = atRisk[place] as number;
      hazard += d / n;
      if (kind === 'aalen') variance += d / (n * n);
      else if (n > 1) variance += (d * (n - d)) / (n * n * (n - 1));
    }
    cumulativeHazard[place] = hazard;
    standardError[place] = Math.sqrt(variance);
  }
  return { cumulativeHazard, standardError };
}

/** A row of weight one moves the hazard by −d/n² at each time at risk and by 1/n at its event. */
export function hazardInfluence({ atRisk, events }: RiskCounts): Influence {
  const whileAtRisk = new Float64Array(atRisk.length);
  const atEvent = new Float64Array(atRisk.length);
  for (let place = 0; place < atRisk.length; place++) {
    const n = atRisk[place] as number;
    const d = events[place] as number;
    if (!(d > 0)) continue;
    whileAtRisk[place] = -d / (n * n);
    atEvent[place] = 1 / n;
  }
  return { whileAtRisk, atEvent };
}
