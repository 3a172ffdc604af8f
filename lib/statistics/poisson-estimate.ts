import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import { NEGLIGIBLE, unknownOf } from './climb-to-top.ts';
import { scoreProducts } from './cox-score.ts';
import type { StandardisedDesign } from './life-design.ts';
import { sandwich } from './numeric/cholesky.ts';
import { standardNormalQuantile } from './numeric/normal.ts';
import type { CountFit } from './poisson-fit.ts';
import { predictorsOf, productsOverTerms, type CountProblem } from './poisson-likelihood.ts';
import { jointInformation } from './poisson-overdispersion.ts';
import { inverseOver, LEAST_CLUSTERS, subMatrix } from './regression-result.ts';
import { transformCovariance } from './working-estimates.ts';

/** Coefficients with their covariances, in the covariates' own units. */
export interface CountEstimate {
  readonly coefficients: Float64Array;
  /** Sign of infinity of each coefficient, 0 for the finite ones. */
  readonly infinite: Int8Array;
  /** Coefficients of which nothing is known, since their column differs only where no events are expected. */
  readonly unknown: readonly number[];
  readonly covariance: Float64Array;
  readonly robustCovariance: Float64Array | null;
  /** Standard error of log θ; Infinity without θ. */
  readonly thetaError: number;
}

/** `spread` is what the model's covariance is to be multiplied by. */
export function estimateCounts(
  problem: CountProblem,
  design: StandardisedDesign,
  fit: CountFit,
  information: 'expected' | 'observed',
  spread: number,
): CountEstimate {
  const n = design.width + 1;
  const { free } = fit.poisson;
  const at = fit.at && fit.theta < Infinity ? fit.at(fit.gamma, fit.theta) : null;
  const curves = at ? at[information] : expectedOf(problem, fit.gamma);
  const bread = fit.converged ? inverseOver(productsOverTerms(problem.design, curves), n, free) : null;
  const joint = bread && at && inverseOver(jointInformation(problem, at, information), n + 1, [...free, n]);
  const model = joint
    ? subMatrix(joint, n + 1, [...new Float64Array(n).keys()])
    : at || !bread
      ? null
      : bread.map((value) => spread * value);
  // θ is taken as known: it does not move the coefficients on average.
  const clusters = problem.rows.cluster?.count ?? 0;
  const robust = bread && clusters >= LEAST_CLUSTERS ? sandwich(bread, clusterProducts(problem, fit), n) : null;
  const { coefficients, jacobian, infinite } = inUnits(fit, design, problem.rows.logUnit);
  const unknown = unknownOf(fit.poisson).filter((j) => j > 0);
  for (const j of unknown) coefficients[j] = 0;
  const units = (covariance: Float64Array) =>
    withInfinite(transformCovariance(jacobian, covariance, n), (j) => infinite[j] !== 0 || unknown.includes(j));
  return {
    ...{ coefficients, infinite, unknown },
    covariance: model ? units(model) : new Float64Array(n * n).fill(Infinity),
    robustCovariance: robust && units(robust),
    thetaError: joint ? Math.sqrt(joint[joint.length - 1] as number) : Infinity,
  };
}

/** Events expected over the rows of each design row, Poisson. */
const expectedOf = (problem: CountProblem, gamma: Float64Array): Float64Array =>
  predictorsOf(problem, gamma).map((eta, k) => (problem.exposure[k] as number) * Math.exp(eta));

/** Σ over clusters of (Σ w ∂l/∂γ)(Σ w ∂l/∂γ)ᵀ, row-major. */
function clusterProducts(problem: CountProblem, { gamma, theta }: CountFit): Float64Array {
  const { rows, design } = problem;
  const { count, codes } = rows.cluster as NonNullable<typeof rows.cluster>;
  const n = design.width + 1;
  const scores = new Float64Array(count * n);
  const predictors = predictorsOf(problem, gamma);
  for (let row = 0; row < rows.size; row++) {
    const k = design.pattern ? (design.pattern[row] as number) : row;
    const w = rows.weight ? (rows.weight[row] as number) : 1;
    const mean = Math.exp((predictors[k] as number) + (rows.offset[row] as number));
    const slope = (w * ((rows.events[row] as number) - mean)) / (1 + mean / theta);
    const to = (codes[row] as number) * n;
    scores[to] = (scores[to] as number) + slope;
    for (let j = 1; j < n; j++)
      scores[to + j] = (scores[to + j] as number) + slope * (design.table[(j - 1) * design.count + k] as number);
  }
  return scoreProducts(scores, n);
}

/** Coefficients in the caller's units with d β / d γ, and which of them are infinite. */
function inUnits({ gamma, poisson }: CountFit, { centre, scale, width }: StandardisedDesign, logUnit: number) {
  const n = width + 1;
  const jacobian = new Float64Array(n * n);
  const infinite = Int8Array.from(poisson.infinite);
  jacobian[0] = 1;
  for (let j = 1; j < n; j++) {
    const perUnit = 1 / (scale[j - 1] as number);
    jacobian[j] = -(centre[j - 1] as number) * perUnit;
    jacobian[j * n + j] = perUnit;
  }
  infinite[0] = 0;
  for (const direction of poisson.directions) {
    const parts = direction.map((value, j) => value * (jacobian[j] as number));
    const move = parts.reduce((sum, part) => sum + part, 0);
    const size = parts.reduce((sum, part) => sum + Math.abs(part), 0);
    if (Math.abs(move) > NEGLIGIBLE * size) infinite[0] = Math.sign(move);
  }
  const coefficients = gamma.map((value, j) => {
    if (infinite[j] !== 0) return (infinite[j] as number) * Infinity;
    if (j > 0) return value * (jacobian[j * n + j] as number);
    return gamma.reduce((sum, part, k) => sum + part * (jacobian[k] as number), -logUnit);
  });
  return { coefficients, jacobian, infinite };
}

function withInfinite(covariance: Float64Array, isInfinite: (term: number) => boolean): Float64Array {
  const n = Math.round(Math.sqrt(covariance.length));
  return covariance.map((value, at) => {
    const [row, column] = [Math.floor(at / n), at % n];
    if (!isInfinite(row) && !isInfinite(column)) return value;
    return row === column ? Infinity : 0;
  });
}

/** What a standard error is multiplied by: Student's where the spread was estimated too. */
export const reachOf = (level: number, degreesOfFreedom: number): number =>
  degreesOfFreedom < Infinity ? tQuantile(0.5 + level / 2, degreesOfFreedom) : standardNormalQuantile(0.5 + level / 2);
