import { toLevel } from './interval.ts';
import { lifeDesign } from './life-design.ts';
import { toCountRows, type CountData } from './poisson-data.ts';
import { estimateCounts, reachOf } from './poisson-estimate.ts';
import { constantsOf, expectedCounts, type ExpectedData } from './poisson-expected.ts';
import { fitCounts, goodnessOf, nullDeviance } from './poisson-fit.ts';
import { countProblem, interceptOnly } from './poisson-likelihood.ts';
import { countRatios } from './poisson-limits.ts';
import { countTests, type CountTests } from './poisson-tests.ts';
import { thetaEstimate } from './poisson-theta.ts';
import { countWarnings } from './poisson-warnings.ts';
import type { RegressionWarning } from './regression-result.ts';
import { StatisticsError } from './statistics-error.ts';
import type { Estimate } from './working-estimates.ts';

export interface PoissonOptions {
  /**
   * How counts vary about their expectation μ: `poisson` (default) by μ; `quasi` by a multiple of μ, estimated by
   * Pearson's χ²; `negative-binomial` by μ + μ²/θ, θ by maximum likelihood.
   */
  readonly family?: 'poisson' | 'quasi' | 'negative-binomial';
  /** Confidence level of every interval, default 0.95. */
  readonly level?: number;
  /**
   * What the errors of negative binomial counts rest on: `expected` information (default), in which θ and the
   * coefficients are independent, or that `observed` over all of them together. One and the same for Poisson counts.
   */
  readonly information?: 'expected' | 'observed';
}

export interface PoissonRegression {
  readonly family: 'poisson' | 'quasi' | 'negative-binomial';
  /** '(intercept)', then one term a numeric covariate and `name=level` a level of a category but the first. */
  readonly terms: readonly string[];
  /** Log rate ratios, the first the log rate where all covariates are zero; ±Infinity where the likelihood is monotone. */
  readonly coefficients: Float64Array;
  /** Model-based; times √dispersion with `quasi`. */
  readonly standardErrors: Float64Array;
  /** With `cluster`: each left out in turn, one step; Infinity where one cluster alone tells of the term. */
  readonly robustStandardErrors?: Float64Array;
  /** Row-major terms × terms. */
  readonly covariance: Float64Array;
  readonly robustCovariance?: Float64Array;
  /** Rate ratios e^coefficient, the first a rate, with model-based limits: Wald, by Student's t with `quasi`. */
  readonly ratio: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** Student's t on the clusters less the terms. */
  readonly robustLower?: Float64Array;
  readonly robustUpper?: Float64Array;
  /** Of the counts; Poisson with `quasi`, which has none. */
  readonly logLikelihood: number;
  readonly nullLogLikelihood: number;
  readonly aic: number;
  readonly tests: CountTests;
  readonly deviance: number;
  /** Of the intercept alone, at the same θ. */
  readonly nullDeviance: number;
  /** Pearson's χ², Σ (events − expected)² / variance. */
  readonly pearson: number;
  /** Weight of the rows less the parameters of the mean; rows whose rate is zero in the limit do not count. */
  readonly degreesOfFreedom: number;
  /** pearson / degreesOfFreedom: near one where the counts vary as the family says. Null without degrees of freedom. */
  readonly dispersion: number | null;
  /** With `negative-binomial`. Infinity where the counts vary no more than Poisson counts; `lower` is then a likelihood limit. */
  readonly theta?: Estimate;
  /** Rows that say something: weight and exposure above zero. */
  readonly rows: number;
  readonly events: number;
  readonly clusters?: number;
  readonly level: number;
  readonly iterations: number;
  readonly converged: boolean;
  readonly warnings: readonly RegressionWarning[];
  /** Events expected of each row of the data given, its weight left out. */
  readonly expected: (data: ExpectedData) => Float64Array;
}

/**
 * Log-linear regression of counts: log E(events) = log exposure + offset + β₀ + Σ β_j x_j. Weights act as repeats.
 *
 * Columns that say nothing of their own are left out and named in `warnings`. Where a level has no events (or events
 * and none are set apart otherwise) its ratio is 0 or Infinity with one finite limit from the likelihood, and the rest
 * is that of the limiting likelihood. `quasi` and `negative-binomial` never claim less than Poisson variation: counts
 * that vary less get Poisson limits, and a warning says so. Wald limits ask for some five events a level.
 *
 * @throws StatisticsError naming argument and row: bad columns, counts that are not counts, no exposure to an event, no
 *   events at all, no degrees of freedom for the variation asked for.
 * Source: McCullagh & Nelder 1989, ch. 6 (log-linear), §6.2.3 (overdispersion), §11.2 (negative binomial); Lawless
 * 1987, Canadian J. Statistics 15:209 (θ by maximum likelihood); Mancl & DeRouen 2001, Biometrics 57:126 (clusters).
 * Outside check: R glm and MASS::glm.nb, reference cases glm-*, pwe-*, rate-change-vans, 1e-6; closed forms; simulation.
 */
export function poissonRegression(data: CountData, options: PoissonOptions = {}): PoissonRegression {
  const level = toLevel(options.level);
  const family = options.family ?? 'poisson';
  if (!['poisson', 'quasi', 'negative-binomial'].includes(family))
    throw new StatisticsError('family', `${family} is not one of those offered`);
  const rows = toCountRows(data);
  const covariates = data.covariates ?? {};
  const design = Object.keys(covariates).length === 0 ? interceptOnly(rows) : lifeDesign(covariates, rows, rows.length);
  const problem = countProblem(rows, design);
  const fit = fitCounts(problem, family === 'negative-binomial');
  const goodness = goodnessOf(problem, fit.gamma, fit.theta, fit.poisson);
  const { pearson, degreesOfFreedom } = goodness;
  if (family !== 'poisson' && !(degreesOfFreedom > 0))
    throw new StatisticsError('family', `${family} needs more rows than terms to see how counts vary`);
  const dispersion = degreesOfFreedom > 0 ? pearson / degreesOfFreedom : null;
  const spread = family === 'quasi' && dispersion !== null && dispersion > 1 ? dispersion : 1;
  const reach = reachOf(level, spread > 1 ? degreesOfFreedom : Infinity);
  const estimate = estimateCounts(problem, design, fit, options.information ?? 'expected', spread);
  const none = fitCounts(countProblem(rows, interceptOnly(rows)), family === 'negative-binomial');
  const terms = ['(intercept)', ...design.terms];
  const parameters = terms.length + (family === 'negative-binomial' ? 1 : 0);
  const calm = family !== 'poisson' && spread === 1 && fit.theta === Infinity;
  return {
    family,
    terms,
    ...countRatios(problem, design, fit, estimate, {
      reach,
      spread,
      robustReach: reachOf(level, estimate.robustDegrees),
    }),
    logLikelihood: fit.value,
    nullLogLikelihood: none.value,
    aic: 2 * (parameters - fit.value),
    tests: countTests(fit, none, estimate, design.width, spread, degreesOfFreedom),
    ...goodness,
    nullDeviance: nullDeviance(problem, fit.theta),
    dispersion,
    ...(fit.at ? { theta: thetaEstimate(problem, fit, estimate.thetaError, level) } : {}),
    rows: rows.size,
    events: rows.totalEvents,
    ...(rows.cluster ? { clusters: rows.cluster.count } : {}),
    level,
    iterations: fit.iterations,
    converged: fit.converged,
    warnings: [...design.warnings, ...countWarnings(terms, fit, estimate, rows, calm)],
    expected: expectedCounts(fit, design, constantsOf(covariates, design, rows), rows.logUnit),
  };
}
