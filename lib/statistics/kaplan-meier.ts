import { checkLives, eachRowACluster, toEvents } from './checked-lives.ts';
import { clusterLabels, type ClusterLabels } from './cluster-labels.ts';
import { clusterVariance, type Influence } from './cluster-variance.ts';
import { survivalLimits, toCurveInterval, type CurveInterval } from './confidence-limits.ts';
import { toLevel } from './interval.ts';
import { riskCounts, type RiskCounts } from './risk-counts.ts';
import { riskOrder } from './risk-order.ts';
import { rememberSource, type CurveSource } from './curve-source.ts';
import type { SurvivalData } from './survival-data.ts';

export interface KaplanMeierOptions {
  /** Confidence level, default 0.95. */
  readonly level?: number;
  /** Scale on which the limits are symmetric, default `log-log`. */
  readonly interval?: CurveInterval;
  /** Robust limits with every row as its own cluster, for weights that are not counts; `cluster` implies it. */
  readonly robust?: boolean;
}

/** The product-limit curve of one group. Arrays share one length and order: distinct exit times, ascending. */
export interface SurvivalCurve extends RiskCounts {
  readonly group: string;
  /** The estimate holds from each time until the next; 1 before the first. */
  readonly survival: Float64Array;
  /** Of S itself (not of log S): S·√(Greenwood's sum); 0 where S is 1 or 0. */
  readonly standardError: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  readonly level: number;
  readonly interval: CurveInterval;
  /** Clusters with a row in the group, where clusters were asked for. */
  readonly clusters?: number;
  /** Infinitesimal jackknife over clusters, of S itself; left out, with its limits, under two clusters. */
  readonly robustStandardError?: Float64Array;
  readonly robustLower?: Float64Array;
  readonly robustUpper?: Float64Array;
}

/**
 * Product-limit estimate of survival by group, with delayed entry and weights; rows at risk on
 * (entry, exit], events before censorings at equal times. One curve a level of `group` (an unused
 * level has empty arrays); without `group`, one curve named `all`. Times in the unit of `exit`.
 *
 * Weights are counts to the model-based error (a whole weight is a repeated row); fractional ones
 * want the robust error. With `cluster`, rows of a cluster (wheel ends of a vehicle) move as one.
 * If the risk set runs empty early under late entry, S falls to 0 and stays (`emptiedAt` says when).
 *
 * Source: Kaplan & Meier 1958; Klein & Moeschberger, Survival Analysis (2nd ed.) §4.2, 4.3, 4.6;
 * robust: Lin & Wei 1989 as in Therneau & Grambsch §7.2. Outside check: R survival 3.5-3 `survfit`
 * on the genfan, aml, veteran, imotor, nickel, ovarian, capacitor and simulated cases, 1e-9.
 *
 * @throws StatisticsError naming the argument and row: exit ≤ entry, exit below zero, not a number,
 * event other than 0 and 1, negative weight, wrong length, level outside (0, 1), unknown interval.
 */
export function kaplanMeier(data: SurvivalData, options: KaplanMeierOptions = {}): SurvivalCurve[] {
  const level = toLevel(options.level);
  const interval = toCurveInterval(options.interval);
  const lives = checkLives(data);
  const event = toEvents(data.event, lives.rows, 1);
  const parts = { count: lives.group.levels.length, codes: lives.group.codes };
  const order = riskOrder(lives.exit, lives.entry, parts, event);
  const cluster = lives.cluster ?? (options.robust ? eachRowACluster(lives.rows) : null);
  const labels = clusterLabels(cluster?.count ?? 0);
  return lives.group.levels.map((group, part) => {
    const counts = riskCounts(order, part, lives);
    const { survival, standardError } = productLimit(counts);
    const limits = survivalLimits(survival, standardError, counts.atRisk, interval, level);
    const curve = { group, ...counts, survival, standardError, ...limits, level, interval };
    if (!cluster) return curve;
    const source = { order, part, lives: { ...lives, event, cluster } };
    const robust = robustPart(counts, survival, source, labels, interval, level);
    const whole = { ...curve, ...robust };
    if (whole.robustStandardError) rememberSource(whole, source);
    return whole;
  });
}

/** S and its Greenwood error at each time. */
function productLimit({ atRisk, events }: RiskCounts): { survival: Float64Array; standardError: Float64Array } {
  const places = atRisk.length;
  const survival = new Float64Array(places);
  const standardError = new Float64Array(places);
  let s = 1;
  let greenwood = 0;
  for (let place = 0; place < places; place++) {
    const d = events[place] as number;
    if (d > 0 && s > 0) {
      const n = atRisk[place] as number;
      const rest = n - d;
      s = rest > 0 ? (s * rest) / n : 0;
      if (s > 0) greenwood += d / (n * rest);
    }
    survival[place] = s;
    standardError[place] = s * Math.sqrt(greenwood);
  }
  return { survival, standardError };
}

/** A row of weight one moves log S by +d/(n(n − d)) at each time at risk and by −1/(n − d) at its event. */
export function logSurvivalInfluence({ atRisk, events }: RiskCounts): Influence {
  const whileAtRisk = new Float64Array(atRisk.length);
  const atEvent = new Float64Array(atRisk.length);
  for (let place = 0; place < atRisk.length; place++) {
    const n = atRisk[place] as number;
    const d = events[place] as number;
    // Where all fail S is 0 whatever the weights, so there is nothing to move.
    if (!(d > 0 && n > d)) continue;
    whileAtRisk[place] = d / (n * (n - d));
    atEvent[place] = -1 / (n - d);
  }
  return { whileAtRisk, atEvent };
}

function robustPart(
  counts: RiskCounts,
  survival: Float64Array,
  { order, part, lives }: CurveSource,
  labels: ClusterLabels,
  interval: CurveInterval,
  level: number,
): Pick<SurvivalCurve, 'clusters' | 'robustStandardError' | 'robustLower' | 'robustUpper'> {
  const { variance, atRisk, clusters } = clusterVariance(order, part, lives, logSurvivalInfluence(counts), labels);
  if (clusters < 2) return { clusters };
  const robustStandardError = variance.map((sum, place) => (survival[place] as number) * Math.sqrt(sum));
  const { lower, upper } = survivalLimits(survival, robustStandardError, atRisk, interval, level);
  return { clusters, robustStandardError, robustLower: lower, robustUpper: upper };
}
