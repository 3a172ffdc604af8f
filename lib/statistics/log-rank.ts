import { checkLives, eachRowACluster, toEvents } from './checked-lives.ts';
import { codesInOrder, packCodes } from './group-risk.ts';
import { clusterScores } from './log-rank-clusters.ts';
import { sweepLogRank } from './log-rank-sweep.ts';
import { chiSquareTail } from './numeric/chi-square-tail.ts';
import { riskOrder } from './risk-order.ts';
import {
  excessOf,
  testClusters,
  testExcess,
  untested,
  type ChiSquareTest,
  type ClusterCovariance,
  type GroupScores,
} from './score-test.ts';
import { StatisticsError } from './statistics-error.ts';
import { toCategory, type SurvivalData } from './survival-data.ts';

export interface LogRankOptions {
  /**
   * `mantel` (default) weighs all events alike; `peto-peto` weighs each by the pooled survival of its
   * stratum just before it (R's rho = 1; some books use the product of n/(n + 1) instead), so early
   * differences count more.
   */
  readonly weights?: 'mantel' | 'peto-peto';
  /** One score a group, in the order of the levels, for a test of trend across them. */
  readonly scores?: ArrayLike<number>;
  /** Robust variance with every row as its own cluster; `cluster` implies it. */
  readonly robust?: boolean;
}

/** A test of one direction: z is positive where higher scores go with more events than expected. */
export interface TrendTest extends ChiSquareTest {
  readonly z: number | null;
}

export interface RobustLogRank extends ChiSquareTest, ClusterCovariance {
  readonly trend?: TrendTest;
}

export interface LogRank extends ChiSquareTest {
  readonly weights: 'mantel' | 'peto-peto';
  /** Levels of `group`; the arrays below follow them. */
  readonly groups: readonly string[];
  /** Rows in each group (weighted where weights were given). */
  readonly lives: Float64Array;
  /** Events in each group, under the test's weights. */
  readonly observed: Float64Array;
  /** Events each group would have had, were the hazard the same in all. */
  readonly expected: Float64Array;
  /** Hypergeometric covariance of observed − expected, row-major, groups × groups. */
  readonly variance: Float64Array;
  readonly trend?: TrendTest;
  readonly robust?: RobustLogRank;
}

/**
 * Log-rank test that the hazard is the same in all groups, with delayed entry, strata, a trend across
 * groups and case weights (whole weights are repeats; fractional ones have no hypergeometric variance
 * and get the robust test alone). With `cluster` the robust test stands beside: scores are summed by
 * cluster as in the Lin–Wei robust score test, taking the test's weights as given.
 *
 * Degrees of freedom are the rank of the variance: groups never at risk beside another add none.
 *
 * Source: Mantel 1966; Peto & Peto 1972; Klein & Moeschberger (2nd ed.) §7.3–7.5; robust: Lin & Wei
 * 1989. Outside check: R survival 3.5-3 `survdiff` (aml, veteran, colon, imotor, ovarian, capacitor)
 * and, with late entry, the exact Cox score test (nickel), 1e-8; robust: R `coxph` robust score (cgd).
 *
 * @throws StatisticsError naming the argument and row: no `group`, a wrong number of scores, and all
 * that `kaplanMeier` refuses.
 */
export function logRank(data: SurvivalData, options: LogRankOptions = {}): LogRank {
  if (!data.group) throw new StatisticsError('group', 'is wanted: the test compares groups');
  const weights = options.weights ?? 'mantel';
  if (weights !== 'mantel' && weights !== 'peto-peto')
    throw new StatisticsError('weights', `is '${String(weights)}', not 'mantel' or 'peto-peto'`);
  const lives = checkLives(data);
  const event = toEvents(data.event, lives.rows, 1);
  const groups = lives.group.levels;
  const scores = toScores(options.scores, groups.length);
  const strata = data.strata ? toCategory('strata', data.strata, lives.rows) : null;
  const packed = packCodes(lives, event);
  const parts = strata && { count: strata.levels.length, codes: strata.codes };
  const order = riskOrder(lives.exit, lives.entry, parts, packed instanceof Uint8Array ? packed : null);
  const inOrder = codesInOrder(order, packed);
  const rho = weights === 'mantel' ? 0 : 1;
  const sums = sweepLogRank(order, lives, inOrder, rho);
  const counts = { weights, groups, lives: sums.lives } as const;
  const whole = lives.weight === null || lives.weight.every(Number.isInteger);
  const model = whole
    ? testScores(sums, sums.variance, scores)
    : { ...untested('weights that are not counts have no hypergeometric variance: see robust') };
  const result = { ...model, ...counts, observed: sums.observed, expected: sums.expected, variance: sums.variance };
  const cluster = lives.cluster ?? (options.robust || !whole ? eachRowACluster(lives.rows) : null);
  if (!cluster) return result;
  const covariance = clusterScores(order, lives, inOrder, cluster, rho);
  return { ...result, robust: testClusters(sums, covariance, (variance) => testScores(sums, variance, scores)) };
}

function toScores(scores: ArrayLike<number> | undefined, groups: number): Float64Array | null {
  if (!scores) return null;
  if (scores.length !== groups)
    throw new StatisticsError('scores', `has ${scores.length} entries where there are ${groups} groups`);
  return Float64Array.from(scores, (score, place) => {
    if (!Number.isFinite(score)) throw new StatisticsError('scores', 'is not a finite number', place);
    return score;
  });
}

function testScores(
  sums: GroupScores,
  variance: Float64Array,
  scores: Float64Array | null,
): ChiSquareTest & { trend?: TrendTest } {
  const test = testExcess({ ...sums, variance }, 'event');
  if (!scores) return test;
  if (test.statistic === null) return { ...test, trend: { ...test, z: null } };
  return { ...test, trend: testTrend(excessOf(sums), variance, scores) };
}

function testTrend(excess: Float64Array, variance: Float64Array, scores: Float64Array): TrendTest {
  const groups = scores.length;
  // Centred first: a constant added to all scores changes nothing but the digits lost.
  const middle = scores.reduce((sum, score) => sum + score, 0) / groups;
  let slope = 0;
  let spread = 0;
  for (let k = 0; k < groups; k++) {
    const score = (scores[k] as number) - middle;
    slope += score * (excess[k] as number);
    for (let l = 0; l < groups; l++)
      spread += score * ((scores[l] as number) - middle) * (variance[k * groups + l] as number);
  }
  if (!(spread > 0)) return { ...untested('the scores do not differ between groups at risk'), z: null };
  const z = slope / Math.sqrt(spread);
  return { z, statistic: z * z, degreesOfFreedom: 1, pValue: chiSquareTail(z * z, 1) };
}
