import { checkSurvival, type CheckedSurvival } from './cox-data.ts';
import { evaluateCox, type CoxEvaluation } from './cox-likelihood.ts';
import { coxProblem, keepColumns, type CoxProblem, type Ties } from './cox-problem.ts';
import { riskSetsOf, type RiskSets } from './cox-risk-sets.ts';
import { designMatrix, type DesignMatrix } from './design-matrix.ts';
import { independentColumns, type RegressionWarning } from './regression-result.ts';
import { StatisticsError } from './statistics-error.ts';
import { toNumbers, type NumberColumn, type SurvivalData } from './survival-data.ts';

export interface PrepareOptions {
  readonly ties?: Ties;
  readonly offset?: NumberColumn;
  readonly initial?: ArrayLike<number>;
  readonly riskSets?: RiskSets;
}

/** A problem reduced to the columns that carry something, and its evaluation where every ratio is one. */
export interface PreparedCox {
  readonly survival: CheckedSurvival;
  readonly design: DesignMatrix;
  readonly problem: CoxProblem;
  /** Index into the design of each column of the problem. */
  readonly kept: readonly number[];
  readonly terms: readonly string[];
  /** Coefficients to start from, scaled. */
  readonly start: Float64Array;
  /** At zero. Its `sums` are the room that later evaluations use again. */
  readonly none: CoxEvaluation;
  readonly warnings: readonly RegressionWarning[];
}

/** Checks the data and drops columns that say nothing of their own, judged by the information at zero. */
export function prepareCox(data: SurvivalData, options: PrepareOptions): PreparedCox {
  const survival = checkSurvival(data);
  const sets = options.riskSets ?? riskSetsOf(survival);
  if (sets.rows !== survival.rows)
    throw new StatisticsError('riskSets', `are of ${sets.rows} rows where exit has ${survival.rows}`);
  if (sets.events === 0) throw new StatisticsError('event', 'has no events, so that no ratio can be estimated');
  const design = designMatrix(data.covariates ?? {}, survival.rows);
  const width = design.terms.length;
  if (width === 0) throw new StatisticsError('covariates', 'are none');
  const offset = options.offset ? toNumbers('offset', options.offset, survival.rows) : null;
  const whole = coxProblem(sets, survival, design, options.ties ?? 'efron', offset);
  const initial = checkInitial(options.initial, width);
  const start = (j: number): number => (initial ? (initial[j] as number) * (whole.scale[j] as number) : 0);
  return { survival, design, ...chooseColumns(whole, design.terms, start) };
}

function checkInitial(initial: ArrayLike<number> | undefined, width: number): Float64Array | null {
  if (!initial) return null;
  if (initial.length !== width)
    throw new StatisticsError('initial', `has ${initial.length} values where the design has ${width} columns`);
  return toNumbers('initial', initial, width);
}

const LEFT_OUT = {
  constant: 'does not vary among those at risk together, so it was left out',
  collinear: 'is a combination of the terms before it, so it was left out',
};

function chooseColumns(whole: CoxProblem, names: readonly string[], start: (j: number) => number) {
  const { width } = whole;
  const none = evaluateCox(whole, new Float64Array(width));
  const weight = whole.events.weight.reduce((sum, value) => sum + value, 0);
  const { kept, reasons } = independentColumns(none.information(), width, 1e-12 * weight);
  const warnings = [...reasons].map(([j, kind]): RegressionWarning => {
    const term = names[j] as string;
    return { kind, term, message: `${term} ${LEFT_OUT[kind]}` };
  });
  const problem = kept.length === width ? whole : keepColumns(whole, kept);
  return {
    problem,
    kept,
    terms: kept.map((j) => names[j] as string),
    start: Float64Array.from(kept, start),
    none: problem === whole ? none : evaluateCox(problem, new Float64Array(kept.length)),
    warnings,
  };
}
