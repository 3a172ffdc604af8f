import { concordanceOf, type Concordance } from './cox-concordance.ts';
import { estimateCox, type CoxEstimate, type CoxTests, type EstimateOptions } from './cox-estimate.ts';
import { ratiosInUnits, type CoxRatios } from './cox-ratios.ts';
import { prepareCox, type PreparedCox, type PrepareOptions } from './cox-prepare.ts';
import type { Ties } from './cox-problem.ts';
import { coxWarnings } from './cox-warnings.ts';
import { toLevel } from './interval.ts';
import { LEAST_CLUSTERS, type RegressionWarning } from './regression-result.ts';
import type { SurvivalData } from './survival-data.ts';

export interface CoxOptions extends PrepareOptions, EstimateOptions {
  /** Confidence level of every interval, default 0.95. */
  readonly level?: number;
  /** `wald` (default), or `profile` likelihood limits (default with `firth`). */
  readonly limits?: 'wald' | 'profile';
  /**
   * Terms whose limits are wanted, all unless given: a search along the likelihood, which limits of infinite
   * coefficients and `profile` ones take, is spared for the others, which are then left unbounded.
   */
  readonly limitsOf?: readonly string[];
  /** False leaves the concordance out, which takes about a third of a fit's time. */
  readonly concordance?: boolean;
}

export interface CoxRegression extends CoxRatios {
  /** Columns estimated: the covariate's name, or `name=level`. Columns left out are named in `warnings`. */
  readonly terms: readonly string[];
  /** Penalised with `firth`. */
  readonly logLikelihood: number;
  readonly nullLogLikelihood: number;
  readonly tests: CoxTests;
  readonly concordance?: Concordance;
  readonly rows: number;
  readonly events: number;
  /** With a row at risk at some failure. Under two of them no robust errors are given. */
  readonly clusters?: number;
  readonly ties: Ties;
  readonly level: number;
  readonly iterations: number;
  readonly converged: boolean;
  readonly warnings: readonly RegressionWarning[];
}

/**
 * Proportional hazards regression by partial likelihood: delayed entry, strata, weights, offset,
 * ties by Efron (default) or Breslow, robust covariance by cluster. `offset` is the known part of
 * each row's log ratio; `initial` holds log ratios to start from, one a column of the design;
 * `riskSets` (see `coxRiskSets`) lets fits that differ only in covariates share the sorting.
 *
 * Columns that say nothing of their own are left out and named in `warnings`. Where the likelihood
 * is monotone (no failure among the exposed, say) the estimate is ±Infinity and its ratio 0 or
 * Infinity, with one finite limit from the profile likelihood, and the other terms are those of the
 * limiting likelihood; `firth` gives a finite estimate instead. Weights act as repeats under
 * Breslow's ties; under Efron's a weighted event stays one event (no tie is made of it).
 *
 * @throws StatisticsError naming argument and row: bad columns, no events, no covariates, bad level.
 * Source: Cox 1972; Efron 1977 (ties); Therneau & Grambsch 2000, ch. 3 (score, information), §7.2
 * (robust covariance; Lin & Wei 1989); Firth 1993, Heinze & Schemper 2001 (penalty).
 * Outside check: reference cases `cox-*`, `cr-mgus2-causespecific` (R survival), 1e-7; closed forms.
 */
export function coxRegression(data: SurvivalData, options: CoxOptions = {}): CoxRegression {
  const level = toLevel(options.level);
  const prepared = prepareCox(data, options);
  const { problem, terms, survival } = prepared;
  const estimate = estimateCox(prepared, options);
  const { fit, nullValue, tests, clusters } = estimate;
  // log |information| in the covariates' own units.
  const shift = options.firth ? problem.scale.reduce((sum, scale) => sum + Math.log(scale), 0) : 0;
  return {
    terms,
    ...ratiosInUnits(prepared, estimate, level, options),
    logLikelihood: fit.value + shift,
    nullLogLikelihood: nullValue + shift,
    tests,
    ...(options.concordance === false ? {} : { concordance: concordance(prepared, estimate) }),
    rows: survival.rows,
    events: problem.sets.events,
    ...(clusters === null ? {} : { clusters }),
    ties: problem.ties,
    level,
    iterations: fit.iterations,
    converged: fit.converged,
    warnings: coxWarnings(prepared, estimate),
  };
}

function concordance(
  { problem, survival: { cluster } }: PreparedCox,
  { predictor, clusters }: CoxEstimate,
): Concordance {
  const found = concordanceOf(problem, predictor, cluster?.codes ?? null, cluster?.count ?? 0);
  return clusters !== null && clusters < LEAST_CLUSTERS ? { ...found, standardError: null } : found;
}
