import type { StandardisedDesign } from './life-design.ts';
import type { LifeRows } from './life-rows.ts';
import { LOG_LIFE_DISTRIBUTIONS, type LogLifeDistribution } from './log-life-distribution.ts';
import { clusterMeat } from './log-life-clusters.ts';
import { LEAST_ALPHA, MOST_ALPHA } from './maximise-log-life.ts';
import { sandwich } from './numeric/cholesky.ts';
import type { Maximum } from './numeric/maximise.ts';
import { standardNormalQuantile } from './numeric/normal.ts';
import { chiSquareTest, inverseOver, quadraticForm } from './regression-result.ts';
import { runaways } from './weibull-regression-separation.ts';
import { LOG_SCALE, transformCovariance, waldEstimate, type Estimate } from './working-estimates.ts';

/** Nothing runs away. */
const NONE = { held: [], sign: new Int8Array(0) };

/** What a fit at `top` says in the caller's units; `noneValue` is the log-likelihood of the intercept alone. */
export function estimateRegression(
  rows: LifeRows,
  distribution: LogLifeDistribution,
  design: StandardisedDesign,
  top: Maximum,
  noneValue: number,
  level: number,
) {
  const { fixedAlpha } = distribution;
  const theta = top.parameters;
  const n = theta.length;
  const alpha = fixedAlpha ?? (theta[n - 1] as number);
  // As the spread runs to zero or without end every coefficient seems to run away with it: none is to be named then.
  const collapsed = fixedAlpha === null && (alpha < LEAST_ALPHA || (alpha > MOST_ALPHA && !top.converged));
  const { held, sign } = collapsed ? NONE : runaways(theta, top.evaluation.hessian, design);
  const infinite = [...sign.keys()].filter((k) => sign[k] !== 0);
  const finite = [...theta.keys()].filter((k) => !held.includes(k));
  const { jacobian, coefficients } = inUnits(theta, design, fixedAlpha, rows.logUnit);
  // Along an endless climb the steps stop where nothing more can be gained, which is all there is to reach.
  const settled = (top.converged || (held.length > 0 && top.distance < 1e-3)) && !collapsed;
  const information = top.evaluation.hessian.map((value) => -value);
  // Runaway coefficients are held, zero in their rows.
  const bread = settled ? inverseOver(information, n, finite) : null;
  const meat = bread && clusterMeat(rows, distribution, theta, design);
  const units = (covariance: Float64Array) => withInfinite(transformCovariance(jacobian, covariance, n), infinite, n);
  const covariance = bread ? units(bread) : new Float64Array(n * n).fill(Infinity);
  const robust = bread && meat && units(sandwich(bread, meat, n));
  for (const k of infinite) coefficients[k] = (sign[k] as number) * Infinity;

  const errors = (matrix: Float64Array) => coefficients.map((_, j) => Math.sqrt(matrix[j * n + j] as number));
  const limits = (matrix: Float64Array, side: number) => {
    const z = side * standardNormalQuantile(0.5 + level / 2);
    return errors(matrix).map((error, j) =>
      error < Infinity ? Math.exp((coefficients[j] as number) + z * error) : side < 0 ? 0 : Infinity,
    );
  };
  const working = { names: [], values: theta, covariance, robustCovariance: robust };
  const spread = (sign: number): Estimate => {
    if (fixedAlpha !== null) return { value: 1, standardError: 0, lower: 1, upper: 1 };
    const gradient = new Float64Array(n);
    gradient[n - 1] = sign;
    // Zero times an infinite variance of a separated term has to stay zero.
    const part = {
      ...working,
      covariance: bread && lastOnly(covariance, n),
      robustCovariance: robust && lastOnly(robust, n),
    };
    return waldEstimate(part, level, -sign * Math.log(alpha), gradient, LOG_SCALE);
  };
  const slopes = finite.filter((k) => k > 0 && k <= design.width && !infinite.includes(k));
  const wald = (matrix: Float64Array) =>
    chiSquareTest(quadraticForm(matrix, n, coefficients, slopes) ?? 0, slopes.length);
  const logLikelihood = top.evaluation.value + rows.logJacobian;
  return {
    converged: settled,
    separated: infinite.filter((k) => k > 0).map((k) => design.terms[k - 1] as string),
    coefficients,
    standardErrors: errors(covariance),
    ...(robust ? { robustStandardErrors: errors(robust) } : {}),
    covariance,
    ...(robust ? { robustCovariance: robust } : {}),
    ratio: coefficients.map(Math.exp),
    lower: limits(covariance, -1),
    upper: limits(covariance, 1),
    ...(robust ? { robustLower: limits(robust, -1), robustUpper: limits(robust, 1) } : {}),
    ...(distribution === LOG_LIFE_DISTRIBUTIONS.lognormal
      ? {}
      : { hazardRatio: coefficients.map((value) => Math.exp(-value * alpha)), shape: spread(-1) }),
    spread: spread(1),
    logLikelihood,
    nullLogLikelihood: noneValue + rows.logJacobian,
    aic: 2 * (n - logLikelihood),
    tests: {
      likelihoodRatio: chiSquareTest(2 * Math.max(0, top.evaluation.value - noneValue), design.width),
      wald: wald(covariance),
      ...(robust && (rows.cluster?.count ?? 0) > slopes.length ? { robustWald: wald(robust) } : {}),
    },
  };
}

/** Coefficients of log life in the caller's units, with d(β, log σ) / d(γ, α), row-major. */
function inUnits(
  theta: Float64Array,
  { centre, scale, width }: StandardisedDesign,
  fixedAlpha: number | null,
  logUnit: number,
) {
  const n = theta.length;
  const alpha = fixedAlpha ?? (theta[n - 1] as number);
  const jacobian = new Float64Array(n * n);
  const coefficients = new Float64Array(width + 1);
  let intercept = (theta[0] as number) / alpha;
  jacobian[0] = 1 / alpha;
  for (let j = 0; j < width; j++) {
    const perUnit = 1 / ((scale[j] as number) * alpha);
    const slope = (theta[j + 1] as number) * perUnit;
    coefficients[j + 1] = slope;
    intercept -= slope * (centre[j] as number);
    jacobian[j + 1] = -(centre[j] as number) * perUnit;
    jacobian[(j + 1) * n + j + 1] = perUnit;
  }
  coefficients[0] = intercept;
  if (fixedAlpha === null)
    for (let row = 0; row < n; row++)
      jacobian[row * n + n - 1] = (row === n - 1 ? -1 : -(coefficients[row] as number)) / alpha;
  // The unit of time is a constant, so it comes after the derivatives.
  coefficients[0] += logUnit;
  return { jacobian, coefficients };
}

function withInfinite(covariance: Float64Array, infinite: readonly number[], n: number): Float64Array {
  for (const k of infinite)
    for (let j = 0; j < n; j++) covariance[k * n + j] = covariance[j * n + k] = j === k ? Infinity : 0;
  return covariance;
}

function lastOnly(covariance: Float64Array, n: number): Float64Array {
  const only = new Float64Array(n * n);
  only[n * n - 1] = covariance[n * n - 1] as number;
  return only;
}
