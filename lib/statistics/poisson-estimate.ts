import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import { NEGLIGIBLE, unknownOf } from './climb-to-top.ts';
import type { StandardisedDesign } from './life-design.ts';
import { standardNormalQuantile } from './numeric/normal.ts';
import type { CountFit } from './poisson-fit.ts';
import { predictorsOf, productsOverTerms, type CountProblem } from './poisson-likelihood.ts';
import { jointInformation } from './poisson-overdispersion.ts';
import { leaveClustersOut } from './poisson-robust.ts';
import { inverseOver, LEAST_CLUSTERS, subMatrix } from './regression-result.ts';
import { transformCovariance } from './working-estimates.ts';

/** Coefficients with their covariances, in the covariates' own units. */
export interface CountEstimate {
  readonly coefficients: Float64Array;
  /** Sign of infinity of each coefficient, 0 for the finite ones. */
  readonly infinite: Int8Array;
  /** Coefficients of which nothing is known, since their column differs only where no events are expected. */
  readonly unknown: readonly number[];
  /** Coefficients that one cluster alone tells of. */
  readonly alone: readonly number[];
  readonly covariance: Float64Array;
  readonly robustCovariance: Float64Array | null;
  /** Clusters less the parameters of the mean. */
  readonly robustDegrees: number;
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
  const { coefficients, jacobian, infinite } = inUnits(fit, design, problem.rows.logUnit);
  const unknown = unknownOf(fit.poisson).filter((j) => j > 0);
  for (const j of unknown) coefficients[j] = 0;
  const unbounded = [...infinite.keys()].filter((j) => infinite[j] !== 0 || unknown.includes(j));
  const units = (covariance: Float64Array, terms: readonly number[]) =>
    withInfinite(transformCovariance(jacobian, covariance, n), terms);
  const clusters = problem.rows.cluster;
  const robust = bread && clusters && clusters.count >= LEAST_CLUSTERS ? leftOut(problem, fit, information) : null;
  const alone = robust ? robust.alone.flatMap((direction) => [...termsMoved(direction, jacobian).keys()]) : [];
  return {
    ...{ coefficients, infinite, unknown },
    alone: [...new Set(alone)].filter((j) => !unbounded.includes(j)).sort((a, b) => a - b),
    covariance: model ? units(model, unbounded) : new Float64Array(n * n).fill(Infinity),
    robustCovariance: robust && units(robust.products, [...unbounded, ...alone]),
    robustDegrees: (clusters?.count ?? 0) - free.length,
    thetaError: joint ? Math.sqrt(joint[joint.length - 1] as number) : Infinity,
  };
}

/** Events expected over the rows of each design row, Poisson. */
const expectedOf = (problem: CountProblem, gamma: Float64Array): Float64Array =>
  predictorsOf(problem, gamma).map((eta, k) => (problem.exposure[k] as number) * Math.exp(eta));

/** θ is taken as known: it does not move the coefficients on average. */
function leftOut(problem: CountProblem, { gamma, theta, poisson }: CountFit, information: 'expected' | 'observed') {
  const { rows, design } = problem;
  const [slopes, curves] = [new Float64Array(rows.size), new Float64Array(rows.size)];
  const predictors = predictorsOf(problem, gamma);
  for (let row = 0; row < rows.size; row++) {
    const k = design.pattern ? (design.pattern[row] as number) : row;
    const y = rows.events[row] as number;
    const mean = Math.exp((predictors[k] as number) + (rows.offset[row] as number));
    const share = (rows.weight ? (rows.weight[row] as number) : 1) / (1 + mean / theta);
    slopes[row] = share * (y - mean);
    curves[row] = share * mean * (information === 'observed' ? (1 + y / theta) / (1 + mean / theta) : 1);
  }
  return leaveClustersOut(problem, slopes, curves, poisson.free);
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
    const move = termsMoved(direction, jacobian).get(0);
    if (move !== undefined) infinite[0] = move;
  }
  const coefficients = gamma.map((value, j) => {
    if (infinite[j] !== 0) return (infinite[j] as number) * Infinity;
    if (j > 0) return value * (jacobian[j * n + j] as number);
    return gamma.reduce((sum, part, k) => sum + part * (jacobian[k] as number), -logUnit);
  });
  return { coefficients, jacobian, infinite };
}

/** The terms that change along a direction in γ, with the sign of the change. */
function termsMoved(direction: Float64Array, jacobian: Float64Array): Map<number, number> {
  const moved = new Map<number, number>();
  const parts = direction.map((value, j) => value * (jacobian[j] as number));
  const move = parts.reduce((sum, part) => sum + part, 0);
  const size = parts.reduce((sum, part) => sum + Math.abs(part), 0);
  if (Math.abs(move) > NEGLIGIBLE * size) moved.set(0, Math.sign(move));
  const most = direction.reduce((largest, value) => Math.max(largest, Math.abs(value)), 0);
  direction.forEach((value, j) => {
    if (j > 0 && Math.abs(value) > NEGLIGIBLE * most) moved.set(j, Math.sign(value));
  });
  return moved;
}

/** With the listed terms unbounded. */
function withInfinite(covariance: Float64Array, terms: readonly number[]): Float64Array {
  const n = Math.round(Math.sqrt(covariance.length));
  for (const j of terms)
    for (let k = 0; k < n; k++) covariance[j * n + k] = covariance[k * n + j] = j === k ? Infinity : 0;
  return covariance;
}

/** What a standard error is multiplied by: Student's where it was estimated with so many degrees of freedom. */
export function reachOf(level: number, degreesOfFreedom: number): number {
  if (degreesOfFreedom === Infinity) return standardNormalQuantile(0.5 + level / 2);
  return degreesOfFreedom > 0 ? tQuantile(0.5 + level / 2, degreesOfFreedom) : Infinity;
}
