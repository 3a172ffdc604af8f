import { checkSurvival, type CheckedSurvival } from './cox-data.ts';
import { evaluateCox } from './cox-likelihood.ts';
import { coxProblem, type CoxProblem, type Ties } from './cox-problem.ts';
import { riskSetsOf, type RiskSets } from './cox-risk-sets.ts';
import type { RiskSums } from './cox-sweep.ts';
import { designMatrix, someTerms } from './design-matrix.ts';
import { StatisticsError } from './statistics-error.ts';
import { toNumbers, type NumberColumn, type SurvivalData } from './survival-data.ts';

/** What of a fit its predictions need: a `CoxRegression` has it. */
export interface FittedCox {
  readonly terms: readonly string[];
  readonly coefficients: Float64Array;
  readonly covariance: Float64Array;
  readonly ties: Ties;
}

export interface AtFitOptions {
  /** Known part of the log ratio of each row, as given to the fit. */
  readonly offset?: NumberColumn;
  readonly riskSets?: RiskSets;
  /**
   * Covariates to predict without. Their terms count as zero and the baseline hazard is that of
   * the rest, so that expected events still add up to the observed.
   */
  readonly without?: readonly string[];
}

/** Risk sums of data at the coefficients of a fit. */
export interface CoxAtFit {
  readonly survival: CheckedSurvival;
  readonly problem: CoxProblem;
  readonly sums: RiskSums;
  /** Centred and scaled. */
  readonly beta: Float64Array;
  /** Fitted term of each column of the problem. */
  readonly columns: readonly number[];
}

/** An infinite log ratio across a covariate's range, in arithmetic. */
const AS_GOOD_AS_INFINITE = 40;

/**
 * Evaluates the risk sums of `data` at a fit's coefficients; the covariates are matched by name.
 *
 * @throws StatisticsError naming `fit` when a term of it has no column in the data.
 */
export function coxAtFit(data: SurvivalData, fit: FittedCox, options: AtFitOptions = {}): CoxAtFit {
  const survival = checkSurvival(data);
  const design = designMatrix(data.covariates ?? {}, survival.rows);
  const without = new Set(options.without ?? []);
  const kept: number[] = [];
  const columns: number[] = [];
  const names = new Map(design.terms.map((term, column) => [term, column]));
  const sourceNames = new Set(design.sources.map(({ name }) => name));
  for (const name of without)
    if (!sourceNames.has(name))
      throw new StatisticsError('without', `names ${name}, which is no covariate of the data`);
  fit.terms.forEach((term, index) => {
    const column = names.get(term);
    if (column === undefined) throw new StatisticsError('fit', `has the term ${term}, which the data lack`);
    if (without.has((design.sources[design.sourceOf[column] as number] as { name: string }).name)) return;
    kept.push(column);
    columns.push(index);
  });
  const offset = options.offset ? toNumbers('offset', options.offset, survival.rows) : null;
  const sets = options.riskSets ?? riskSetsOf(survival);
  const problem = coxProblem(sets, survival, someTerms(design, kept), fit.ties, offset);
  const beta = Float64Array.from(columns, (index, j) => {
    const coefficient = fit.coefficients[index] as number;
    if (Number.isFinite(coefficient)) return coefficient * (problem.scale[j] as number);
    return Math.sign(coefficient) * AS_GOOD_AS_INFINITE;
  });
  const { sums, information } = evaluateCox(problem, beta);
  information();
  return { survival, problem, sums, beta, columns };
}
