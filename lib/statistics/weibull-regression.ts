import chiSquareCdf from '@stdlib/stats-base-dists-chisquare-cdf';
import { toLevel } from './interval.ts';
import { lifeDesign, type StandardisedDesign } from './life-design.ts';
import { requireMaximum, toLifeRows, type LifeData, type LifeRows } from './life-rows.ts';
import { LOG_LIFE_DISTRIBUTIONS, type LogLifeDistribution, type LogLifeName } from './log-life-distribution.ts';
import { climbInStages, clusterMeat, LEAST_ALPHA, maximiseLogLife } from './maximise-log-life.ts';
import { cholesky, choleskyFailed, invertCholesky, sandwich, solveCholesky } from './numeric/cholesky.ts';
import type { Maximum } from './numeric/maximise.ts';
import { standardNormalQuantile } from './numeric/normal.ts';
import { StatisticsError } from './statistics-error.ts';
import type { Covariates } from './survival-data.ts';
import { LOG_SCALE, transformCovariance, waldEstimate, type Estimate } from './working-estimates.ts';

export interface WeibullRegressionOptions {
  /** Default 'weibull'; the others fit the same accelerated-life model with another error. */
  readonly distribution?: LogLifeName;
  readonly level?: number;
}

interface Test {
  readonly statistic: number;
  readonly degreesOfFreedom: number;
  readonly pValue: number;
}

export interface WeibullRegression {
  readonly distribution: LogLifeName;
  /** '(intercept)', then one term a numeric covariate and `name=level` a level of a category but the first. */
  readonly terms: readonly string[];
  /** Of log life: + 0.1 is a life about 10 % longer. Not finite where failures and survivors are set apart. */
  readonly coefficients: Float64Array;
  readonly standardErrors: Float64Array;
  readonly robustStandardErrors?: Float64Array;
  /** Row-major over the terms and then log spread (spread is fixed, so left out, for exponential). */
  readonly covariance: Float64Array;
  readonly robustCovariance?: Float64Array;
  /** Life ratios e^coefficient with Wald limits; robust ones when clusters are given. */
  readonly ratio: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** e^(−coefficient / spread): the hazard ratio, for Weibull and exponential. */
  readonly hazardRatio?: Float64Array;
  /** Spread of log life; 1 / shape for Weibull. */
  readonly spread: Estimate;
  readonly shape?: Estimate;
  readonly logLikelihood: number;
  readonly aic: number;
  /** Against the intercept alone; the Wald test is robust when clusters are given. */
  readonly tests: { readonly likelihoodRatio: Test; readonly wald: Test };
  readonly subjects: number;
  readonly failures: number;
  readonly iterations: number;
  readonly converged: boolean;
  readonly warnings: readonly string[];
}

/**
 * Accelerated life by covariates: log T = β₀ + Σ β_j x_j + σ W with W smallest extreme value
 * (Weibull), normal (lognormal) or σ = 1 (exponential). Right-, left- and interval-censored, left-truncated,
 * weighted; cluster-robust limits.
 *
 * @param data exits with events, or intervals (see fitLife), with `covariates`.
 * @throws StatisticsError on bad columns, no failures, a constant or dependent covariate. A fit
 *   that does not converge, or a covariate that sets failures and survivors apart, comes back with
 *   `converged` false and says so in `warnings`.
 * Source: Meeker & Escobar (1998) ch. 17; Kalbfleisch & Prentice §3.6. Outside check: R
 * survival::survreg, tests/reference cases aft-*, 1e-6.
 */
export function weibullRegression(
  data: LifeData & { readonly covariates: Covariates },
  options: WeibullRegressionOptions = {},
): WeibullRegression {
  const level = toLevel(options.level);
  const name = options.distribution ?? 'weibull';
  const distribution = LOG_LIFE_DISTRIBUTIONS[name] as LogLifeDistribution | undefined;
  if (!distribution) throw new StatisticsError('distribution', `${name} is not one of those offered`);
  const rows = toLifeRows(data);
  requireMaximum(rows, distribution.fixedAlpha === null);
  const design = lifeDesign(data.covariates, rows, ('exit' in data ? data.exit : data.upper).length);
  const null0 = maximiseLogLife(rows, distribution);
  const [gamma, ...alpha] = null0.parameters;
  const start = [gamma as number, ...new Float64Array(design.width), ...alpha];
  const top = climbInStages(rows, distribution, design, start);
  return report(name, distribution, rows, design, null0, top, level);
}

/** d(β, log σ) / d(γ, α) with γ, α of the standardised fit; row-major. */
function regressionJacobian(
  theta: Float64Array,
  { centre, scale, width }: StandardisedDesign,
  fixedAlpha: number | null,
) {
  const n = theta.length;
  const alpha = fixedAlpha ?? (theta[n - 1] as number);
  const jacobian = new Float64Array(n * n);
  const slopes = Float64Array.from(scale, (range, j) => (theta[j + 1] as number) / (range * alpha));
  let intercept = (theta[0] as number) / alpha;
  jacobian[0] = 1 / alpha;
  for (let j = 0; j < width; j++) {
    jacobian[j + 1] = -(centre[j] as number) / ((scale[j] as number) * alpha);
    jacobian[(j + 1) * n + j + 1] = 1 / ((scale[j] as number) * alpha);
    intercept -= (slopes[j] as number) * (centre[j] as number);
  }
  const coefficients = Float64Array.of(intercept, ...slopes);
  if (fixedAlpha === null)
    for (let row = 0; row < n; row++)
      jacobian[row * n + n - 1] = row === n - 1 ? -1 / alpha : -(coefficients[row] as number) / alpha;
  return { jacobian, coefficients };
}

function report(
  name: LogLifeName,
  distribution: LogLifeDistribution,
  rows: LifeRows,
  design: StandardisedDesign,
  null0: Maximum,
  top: Maximum,
  level: number,
): WeibullRegression {
  const theta = top.parameters;
  const n = theta.length;
  const { fixedAlpha } = distribution;
  const { jacobian, coefficients } = regressionJacobian(theta, design, fixedAlpha);
  const bread = top.information ? invertCholesky(top.information) : new Float64Array(n * n).fill(Infinity);
  const meat = top.information && clusterMeat(rows, distribution, theta, design);
  const warnings = warningsOf(top, design, bread, fixedAlpha);
  // With covariates centred the intercept is that of the mean life; moved back to x = 0 and to the caller's unit of time.
  coefficients[0] = (coefficients[0] as number) + rows.logUnit;
  const covariance = top.information ? transformCovariance(jacobian, bread, n) : bread;
  const robust = meat && transformCovariance(jacobian, sandwich(bread, meat, n), n);
  const used = robust ?? covariance;
  const errors = (matrix: Float64Array) =>
    Float64Array.from(coefficients, (_, j) => Math.sqrt(matrix[j * n + j] as number));
  const half = errors(used).map((error) => error * standardNormalQuantile(0.5 + level / 2));
  const alpha = fixedAlpha ?? (theta[n - 1] as number);
  const working = { names: [], values: theta, covariance, robustCovariance: robust };
  const logAlpha = (sign: number) =>
    waldEstimate(
      working,
      level,
      sign * Math.log(alpha),
      Array.from(theta, (_, j) => (j === n - 1 && fixedAlpha === null ? -sign : 0)),
      LOG_SCALE,
    );
  const logLikelihood = top.evaluation.value + rows.logJacobian;
  return {
    distribution: name,
    terms: ['(intercept)', ...design.terms],
    coefficients,
    standardErrors: errors(covariance),
    ...(robust ? { robustStandardErrors: errors(robust), robustCovariance: robust } : {}),
    covariance,
    ratio: coefficients.map(Math.exp),
    lower: coefficients.map((value, j) => Math.exp(value - (half[j] as number))),
    upper: coefficients.map((value, j) => Math.exp(value + (half[j] as number))),
    ...(name === 'lognormal'
      ? {}
      : { hazardRatio: coefficients.map((value) => Math.exp(-value * alpha)), shape: logAlpha(1) }),
    spread: logAlpha(-1),
    logLikelihood,
    aic: 2 * (n - logLikelihood),
    tests: {
      likelihoodRatio: toTest(2 * (top.evaluation.value - null0.evaluation.value), design.width),
      wald: toTest(waldStatistic(coefficients, used, n), design.width),
    },
    subjects: rows.totalWeight,
    failures: rows.failedWeight,
    iterations: top.iterations,
    converged: warnings.length === 0,
    warnings,
  };
}

/** A coefficient this uncertain over its covariate's whole range, in units of z, marks a likelihood that climbs for ever. */
const SEPARATED = 100;

function warningsOf(
  top: Maximum,
  { terms, width }: StandardisedDesign,
  bread: Float64Array,
  fixedAlpha: number | null,
): string[] {
  const n = top.parameters.length;
  const warnings: string[] = [];
  for (let j = 1; j <= width; j++)
    if (!(Math.sqrt(bread[j * n + j] as number) < SEPARATED))
      warnings.push(`${terms[j - 1]} sets failures and survivors apart: no finite coefficient fits best`);
  if (fixedAlpha === null && (top.parameters[n - 1] as number) < LEAST_ALPHA)
    warnings.push('the likelihood climbs towards a shape of zero: the hazard falls faster than this distribution can');
  if (!top.converged && warnings.length === 0) warnings.push(`did not converge in ${top.iterations} iterations`);
  return warnings;
}

function waldStatistic(coefficients: Float64Array, covariance: Float64Array, n: number): number {
  const width = coefficients.length - 1;
  const inner = new Float64Array(width * width);
  for (let row = 0; row < width; row++)
    for (let column = 0; column < width; column++)
      inner[row * width + column] = covariance[(row + 1) * n + column + 1] as number;
  const factor = cholesky(inner, width, 1e-14);
  if (choleskyFailed(factor)) return NaN;
  const slopes = coefficients.subarray(1);
  return solveCholesky(factor, slopes).reduce((sum, value, j) => sum + value * (slopes[j] as number), 0);
}

const toTest = (statistic: number, degreesOfFreedom: number): Test => {
  return { statistic, degreesOfFreedom, pValue: degreesOfFreedom ? 1 - chiSquareCdf(statistic, degreesOfFreedom) : 1 };
};
