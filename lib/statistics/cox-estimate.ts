import { climbToTop, type Climbable, type Top } from './climb-to-top.ts';
import { isMonotone } from './cox-separation.ts';
import type { Slope } from './newton-climb.ts';
import { cholesky, choleskyFailed, invertCholesky, sandwich } from './numeric/cholesky.ts';
import { firthEvaluator } from './cox-firth.ts';
import { evaluateCox } from './cox-likelihood.ts';
import type { PreparedCox } from './cox-prepare.ts';
import type { CoxProblem } from './cox-problem.ts';
import { clusterScores, scoreProducts } from './cox-score.ts';
import type { RiskSums } from './cox-sweep.ts';
import { chiSquareTest, LEAST_CLUSTERS, quadraticForm, subMatrix, type TestResult } from './regression-result.ts';
import type { Codes } from './survival-data.ts';

/** A fit in centred and scaled coefficients, with what has to be read off the risk sums at its top. */
export interface CoxEstimate {
  readonly fit: Top;
  readonly climbable: Climbable;
  /** Columns with a finite estimate. */
  readonly finite: readonly number[];
  /** Over all columns; rows and columns of infinite ones are zero. */
  readonly covariance: Float64Array;
  readonly robustCovariance: Float64Array | null;
  /** Linear predictor of each pattern, the offset left out. */
  readonly predictor: Float64Array;
  readonly nullValue: number;
  readonly tests: CoxTests;
  /** With a row at risk at some failure; null without clusters. */
  readonly clusters: number | null;
}

export interface CoxTests {
  readonly likelihoodRatio: TestResult;
  /** Over the terms with a finite estimate. */
  readonly wald: TestResult;
  /** At no effect; not defined for a penalised fit. */
  readonly score?: TestResult;
  /** With `cluster`, if there are more clusters than terms. */
  readonly robustWald?: TestResult;
  /** When asked for. */
  readonly robustScore?: TestResult;
}

export interface EstimateOptions {
  /** Firth's penalty: finite ratios under separation, less bias with few events. */
  readonly firth?: boolean;
  readonly maxIterations?: number;
  /** With `cluster`: the robust score test too, which takes as long again as the robust covariance. */
  readonly robustScore?: boolean;
}

/** Climbs to the top of a prepared problem. */
export function estimateCox(prepared: PreparedCox, options: EstimateOptions): CoxEstimate {
  const { problem, none, start } = prepared;
  const { width } = problem;
  const { evaluate, sumsAt } = evaluator(problem, none.sums, options.firth ?? false);
  const climbable = { width, evaluate, isMonotone: (direction: Float64Array) => isMonotone(problem, direction) };
  const cluster = clustersAtRisk(prepared);
  const products = cluster && cluster.count >= LEAST_CLUSTERS ? clusterProducts(prepared) : null;
  // Before the climb, which uses the room of the sums again.
  const nullProducts = products && options.robustScore && !options.firth ? products(none.sums) : null;
  const zero = new Float64Array(width);
  const first: Slope = options.firth ? evaluate(zero) : none;
  const fit = climbToTop(climbable, start, {
    maxIterations: options.maxIterations ?? (options.firth ? 500 : 50),
    ...(start.every((value) => value === 0) ? { first } : {}),
  });
  const finite = fit.free.filter((j) => fit.infinite[j] === 0);
  const covariance = inverseOver(fit, finite, width);
  const sums = sumsAt(fit.beta);
  const robustCovariance = products ? sandwich(covariance, products(sums), width) : null;
  const { score } = none;
  const information = none.information();
  const everything = Array.from(zero.keys());
  const tests: CoxTests = {
    likelihoodRatio: chiSquareTest(Math.max(0, 2 * (fit.value - first.value)), width),
    wald: waldTest(covariance, fit.beta, finite),
    ...(options.firth ? {} : { score: formTest(information, score, everything) }),
    ...(robustCovariance && cluster && cluster.count > finite.length
      ? { robustWald: waldTest(robustCovariance, fit.beta, finite) }
      : {}),
    ...(nullProducts && cluster && cluster.count > width
      ? { robustScore: formTest(nullProducts, score, everything) }
      : {}),
  };
  const predictor = sums.predictor.slice();
  const clusters = cluster?.count ?? null;
  return { fit, climbable, finite, covariance, robustCovariance, predictor, nullValue: first.value, tests, clusters };
}

/** An evaluator that knows where its sums were last taken. */
function evaluator(problem: CoxProblem, sums: RiskSums, firth: boolean) {
  let last: Float64Array | null = null;
  const penalised = firth ? firthEvaluator(problem, sums) : null;
  const evaluate = (beta: Float64Array): Slope => {
    last = beta;
    if (penalised) return penalised(beta);
    return evaluateCox(problem, beta, sums);
  };
  const sumsAt = (beta: Float64Array): RiskSums => {
    if (last === null || beta.some((value, j) => !(Math.abs(value - ((last as Float64Array)[j] as number)) < 1e-8)))
      evaluate(beta).information();
    return sums;
  };
  return { evaluate, sumsAt };
}

/** Clusters by row, their count that of those with a row at risk at some failure. */
function clustersAtRisk({ survival: { cluster }, problem: { sets } }: PreparedCox): Codes | null {
  if (!cluster) return null;
  const used = new Uint8Array(cluster.count);
  for (let position = 0; position < sets.row.length; position++)
    used[cluster.codes[sets.row[position] as number] as number] = 1;
  return { count: used.reduce((sum, one) => sum + one, 0), codes: cluster.codes };
}

/** Products of the scores summed by cluster, at the sums given. */
function clusterProducts({ survival, problem }: PreparedCox): (sums: RiskSums) => Float64Array {
  const { codes, count } = survival.cluster as Codes;
  return (sums) => scoreProducts(clusterScores(problem, sums, codes, count), problem.width);
}

/** Inverse information over the columns estimated, cut down to the finite ones, embedded in the full width. */
function inverseOver({ information, free }: Top, finite: readonly number[], width: number): Float64Array {
  const whole = new Float64Array(width * width);
  const factor = cholesky(subMatrix(information, width, free), free.length, 1e-14);
  const inverse = choleskyFailed(factor) ? null : invertCholesky(factor);
  const place = new Map(free.map((j, index) => [j, index]));
  for (const row of finite)
    for (const column of finite) {
      const at = (place.get(row) as number) * free.length + (place.get(column) as number);
      whole[row * width + column] = inverse ? (inverse[at] as number) : row === column ? Infinity : 0;
    }
  return whole;
}

const formTest = (matrix: Float64Array, vector: Float64Array, components: readonly number[]): TestResult =>
  chiSquareTest(quadraticForm(matrix, vector.length, vector, components) ?? 0, components.length);

function waldTest(covariance: Float64Array, beta: Float64Array, finite: readonly number[]): TestResult {
  const known = finite.filter((j) => Number.isFinite(covariance[j * beta.length + j]));
  return formTest(covariance, beta, known);
}
