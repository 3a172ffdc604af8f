import { toLevel } from './interval.ts';
import { lifeDesign } from './life-design.ts';
import type { LifeData } from './life-rows.ts';
import { toLifeRows } from './read-life-rows.ts';
import { requireMaximum } from './require-maximum.ts';
import { LOG_LIFE_DISTRIBUTIONS, type LogLifeDistribution, type LogLifeName } from './log-life-distribution.ts';
import { climbInStages, maximiseWithoutCovariates, MOST_ALPHA } from './maximise-log-life.ts';
import { clusterWarnings, type RegressionWarning, type TestResult } from './regression-result.ts';
import { StatisticsError } from './statistics-error.ts';
import type { Covariates } from './survival-data.ts';
import { estimateRegression } from './weibull-regression-estimate.ts';
import type { Estimate } from './working-estimates.ts';

export interface WeibullRegressionOptions {
  /** Default 'weibull'; the others fit the same accelerated-life model with another error. */
  readonly distribution?: LogLifeName;
  readonly level?: number;
}

export interface WeibullRegression {
  readonly distribution: LogLifeName;
  /** '(intercept)', then one term a numeric covariate and `name=level` a level of a category but the first. */
  readonly terms: readonly string[];
  /** Of log life: + 0.1 is a life about 10 % longer. ±Infinity where failures and survivors are set apart. */
  readonly coefficients: Float64Array;
  /** Model-based, from the observed information. */
  readonly standardErrors: Float64Array;
  readonly robustStandardErrors?: Float64Array;
  /** Row-major over the terms and then log spread (fixed, so left out, for exponential). */
  readonly covariance: Float64Array;
  readonly robustCovariance?: Float64Array;
  /** Life ratios e^coefficient with model-based Wald limits, and robust ones when clusters are given. */
  readonly ratio: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  readonly robustLower?: Float64Array;
  readonly robustUpper?: Float64Array;
  /** e^(−coefficient / spread): the hazard ratio of each term, for Weibull and exponential. */
  readonly hazardRatio?: Float64Array;
  /** Spread of log life; its inverse is the shape for Weibull. */
  readonly spread: Estimate;
  readonly shape?: Estimate;
  readonly logLikelihood: number;
  readonly nullLogLikelihood: number;
  readonly aic: number;
  /** Against the intercept alone, over the terms with a finite estimate for the Wald tests. */
  readonly tests: {
    readonly likelihoodRatio: TestResult;
    readonly wald: TestResult;
    readonly robustWald?: TestResult;
  };
  readonly subjects: number;
  readonly failures: number;
  readonly clusters?: number;
  readonly level: number;
  readonly iterations: number;
  readonly converged: boolean;
  readonly warnings: readonly RegressionWarning[];
}

/**
 * Accelerated life by covariates: log T = β₀ + Σ β_j x_j + σ W with W smallest extreme value
 * (Weibull, the default), normal (lognormal), or extreme value with σ = 1 (exponential). Right-,
 * left- and interval-censored, left-truncated by `entry`, weighted; cluster-robust errors.
 *
 * @param data exits with events, or intervals (see fitLife), with `covariates`.
 * @returns estimates in the caller's units. Columns that say nothing of their own are left out and
 *   named in `warnings`; so are terms that set failures and survivors apart, their ratio 0 or Infinity.
 * @throws StatisticsError on bad columns, no covariates, no failures, or lives no maximum exists for.
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
  if (design.width + design.warnings.length === 0) throw new StatisticsError('covariates', 'are none');
  const none = maximiseWithoutCovariates(rows, distribution);
  const [gamma, ...alpha] = none.parameters;
  const top = climbInStages(rows, distribution, design, [gamma as number, ...new Float64Array(design.width), ...alpha]);
  const { separated, ...reported } = estimateRegression(rows, distribution, design, top, none.value, level);
  const warnings = [...design.warnings, ...separated.map(separation)];
  if (!reported.converged) {
    const steps = `no maximum after ${top.iterations} iterations`;
    const exact =
      reported.spread.value < 1 / MOST_ALPHA ? ': the covariates fit the failures without any spread left' : '';
    warnings.push({ kind: 'not-converged', term: null, message: steps + exact });
  }
  const clusters = rows.cluster?.count ?? null;
  warnings.push(...clusterWarnings(clusters));
  return {
    distribution: name,
    terms: ['(intercept)', ...design.terms],
    ...reported,
    subjects: rows.totalWeight,
    failures: rows.failedWeight,
    ...(clusters === null ? {} : { clusters }),
    level,
    iterations: top.iterations,
    warnings,
  };
}

const separation = (term: string): RegressionWarning => {
  const message = `${term} sets failures and survivors apart: the likelihood rises without end in its coefficient`;
  return { kind: 'separation', term, message };
};
