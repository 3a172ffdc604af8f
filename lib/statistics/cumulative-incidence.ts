import { checkLives, eachRowACluster, toEvents, type CheckedLives } from './checked-lives.ts';
import { clusterLabels, type ClusterLabels } from './cluster-labels.ts';
import { incidenceLimits, toCurveInterval, type CurveInterval } from './confidence-limits.ts';
import { aalenJohansen, causeCounts } from './incidence-recursion.ts';
import { incidenceClusterVariance } from './incidence-clusters.ts';
import type { IncidenceCurve } from './incidence-curve.ts';
import { toLevel } from './interval.ts';
import { riskCounts, type RiskCounts } from './risk-counts.ts';
import { riskOrder, type RiskOrder } from './risk-order.ts';
import { StatisticsError } from './statistics-error.ts';
import type { Codes, SurvivalData } from './survival-data.ts';

export interface CumulativeIncidenceOptions {
  /** Confidence level, default 0.95. */
  readonly level?: number;
  /** Scale on which the limits are symmetric, `log-log` (default: log(−log F)), `log` or `plain`. */
  readonly interval?: CurveInterval;
  /**
   * `greenwood` (default): multinomial, as Andersen et al. and R's etm; it is Greenwood's error when there
   * is one cause. `aalen`: hypergeometric by cause, as R's cmprsk. They differ only where events are tied.
   */
  readonly variance?: 'greenwood' | 'aalen';
  /** Curves of these causes only, of those with an event in the data: the errors of the others are then not worked out. */
  readonly causes?: readonly number[];
  /** Robust limits with every row as its own cluster (what R's multi-state survfit gives); `cluster` implies it. */
  readonly robust?: boolean;
}

/** Event codes are held in a byte. */
const MOST_CAUSES = 255;

/**
 * Aalen–Johansen cumulative incidence: the chance to fail from each cause by each time, other causes
 * at work. `event` is 0 (censored) or a cause code from 1; one curve a group and cause, by group, then
 * cause (every code in the data, or in a group too where it has none). Rows, ties, late entry, weights
 * and clusters as in `kaplanMeier`.
 *
 * Source: Aalen & Johansen 1978; Klein & Moeschberger (2nd ed.) §4.7; Andersen et al. 1993 §IV.4.
 * Outside check, 1e-7: R survival 3.5-3, etm 1.1.1 (`greenwood`) and cmprsk 2.2-11 (`aalen`) on mgus2,
 * nickel (late entry) and fourD; the robust error against survfit's infinitesimal jackknife.
 *
 * @throws StatisticsError naming the argument and row: an event code that is not a whole number from 0
 * to 255, a cause asked for that is none from 1 to 255, and all that `kaplanMeier` refuses.
 */
export function cumulativeIncidence(data: SurvivalData, options: CumulativeIncidenceOptions = {}): IncidenceCurve[] {
  const level = toLevel(options.level);
  const interval = toCurveInterval(options.interval);
  const variance = options.variance ?? 'greenwood';
  if (variance !== 'greenwood' && variance !== 'aalen')
    throw new StatisticsError('variance', `is '${String(variance)}', not 'greenwood' or 'aalen'`);
  const lives = checkLives(data);
  const event = toEvents(data.event, lives.rows, MOST_CAUSES);
  const causes = chooseCauses(event, options.causes);
  const parts = { count: lives.group.levels.length, codes: lives.group.codes };
  const order = riskOrder(lives.exit, lives.entry, parts, event);
  const cluster = lives.cluster ?? (options.robust ? eachRowACluster(lives.rows) : null);
  const labels = clusterLabels(cluster?.count ?? 0);
  return lives.group.levels.flatMap((group, part) => {
    const all = riskCounts(order, part, lives);
    return causes.map((cause) => {
      const events = causeCounts(order, part, event, lives.weight, cause, all);
      const { incidence, standardError, survival } = aalenJohansen(all, events, variance);
      const limits = incidenceLimits(incidence, standardError, all.atRisk, interval, level);
      const curve = { ...all, group, cause, events, incidence, standardError, ...limits, survival, level, interval };
      if (!cluster) return curve;
      return { ...curve, ...robustPart(curve, all, { order, part, lives, event, cluster, labels }) };
    });
  });
}

function chooseCauses(event: Uint8Array, wanted: readonly number[] | undefined): number[] {
  wanted?.forEach((cause, place) => {
    if (!Number.isInteger(cause) || cause < 1 || cause > MOST_CAUSES)
      throw new StatisticsError('causes', `holds ${cause}, not a whole number from 1 to ${MOST_CAUSES}`, place);
  });
  const seen = new Uint8Array(MOST_CAUSES + 1);
  for (let row = 0; row < event.length; row++) seen[event[row] as number] = 1;
  return Array.from(seen.keys()).filter((code) => code > 0 && seen[code] === 1 && (wanted?.includes(code) ?? true));
}

interface RobustColumns {
  readonly order: RiskOrder;
  readonly part: number;
  readonly lives: CheckedLives;
  readonly event: Uint8Array;
  readonly cluster: Codes;
  readonly labels: ClusterLabels;
}

function robustPart(
  curve: IncidenceCurve,
  all: RiskCounts,
  { order, part, lives, event, cluster, labels }: RobustColumns,
): Pick<IncidenceCurve, 'clusters' | 'robustStandardError' | 'robustLower' | 'robustUpper'> {
  const columns = { ...lives, event, cluster };
  const { variance, atRisk, clusters } = incidenceClusterVariance(order, part, columns, curve, all, labels);
  if (clusters < 2) return { clusters };
  const robustStandardError = variance.map(Math.sqrt);
  const limits = incidenceLimits(curve.incidence, robustStandardError, atRisk, curve.interval, curve.level);
  return { clusters, robustStandardError, robustLower: limits.lower, robustUpper: limits.upper };
}
