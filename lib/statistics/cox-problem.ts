import type { CheckedSurvival } from './cox-data.ts';
import type { RiskSets } from './cox-risk-sets.ts';
import { designTable, type DesignMatrix } from './design-matrix.ts';
import { designPatterns } from './design-patterns.ts';
import { pickColumns, standardise } from './design-standardise.ts';

export type Ties = 'efron' | 'breslow';

/**
 * A partial likelihood ready to be evaluated. Covariates are centred at their means and divided by
 * their ranges, so that sums of squares keep their digits whatever the units, and a coefficient is
 * the log ratio across the whole range of its covariate.
 */
export interface CoxProblem {
  readonly sets: RiskSets;
  readonly ties: Ties;
  readonly width: number;
  /** Design rows, centred and scaled, row-major: one a pattern, or one a position. */
  readonly table: Float64Array;
  readonly patterns: number;
  /** The pattern at each position. */
  readonly pattern: Int32Array;
  readonly centre: Float64Array;
  readonly scale: Float64Array;
  /** Weight and offset at each position, null for all ones, all zeros. */
  readonly weight: Float64Array | null;
  readonly offset: Float64Array | null;
  /** What the events add to the log-likelihood and its score whatever the coefficients. */
  readonly events: EventSums;
}

export interface EventSums {
  /** Σ weight at each event time. */
  readonly weight: Float64Array;
  /** Σ weight · design and Σ weight · offset over all events. */
  readonly design: Float64Array;
  readonly offset: number;
}

/** Lays covariates, weights and offsets out by position. `offset` is by row. */
export function coxProblem(
  sets: RiskSets,
  survival: CheckedSurvival,
  design: DesignMatrix,
  ties: Ties,
  offset: Float64Array | null,
): CoxProblem {
  const { row } = sets;
  const width = design.terms.length;
  const folded = designPatterns(design);
  const pattern = new Int32Array(row.length);
  for (let position = 0; position < row.length; position++)
    pattern[position] = folded ? (folded.ofRow[row[position] as number] as number) : position;
  const table = designTable(design, folded ? folded.example : row);
  const patterns = folded ? folded.count : row.length;
  const { centre, scale } = standardise(table, width, positionsOf(pattern, patterns));
  const weight = byPosition(survival.weight, row);
  const known = byPosition(offset, row);
  const events = eventSums({ sets, width, table, pattern, weight, offset: known });
  // Written out: of a spread object the machine forgets the layout between fits, and what was compiled for it.
  return { sets, ties, width, table, patterns, pattern, centre, scale, weight, offset: known, events };
}

function byPosition(values: Float64Array | null, row: Uint32Array): Float64Array | null {
  if (values === null) return null;
  const placed = new Float64Array(row.length);
  for (let position = 0; position < row.length; position++)
    placed[position] = values[row[position] as number] as number;
  return placed;
}

/** How many positions have each design row. */
function positionsOf(pattern: Int32Array, patterns: number): Float64Array {
  const counts = new Float64Array(patterns);
  for (let position = 0; position < pattern.length; position++)
    counts[pattern[position] as number] = (counts[pattern[position] as number] as number) + 1;
  return counts;
}

function eventSums({
  sets,
  width,
  table,
  pattern,
  weight,
  offset,
}: Pick<CoxProblem, 'sets' | 'width' | 'table' | 'pattern' | 'weight' | 'offset'>): EventSums {
  const weights = new Float64Array(sets.time.length);
  const counts = new Float64Array(width === 0 ? 0 : table.length / width);
  let offsets = 0;
  for (let time = 0; time < weights.length; time++) {
    const first = sets.firstPosition[time] as number;
    let sum = 0;
    for (let position = first; position < first + (sets.deaths[time] as number); position++) {
      const k = pattern[position] as number;
      const w = weight ? (weight[position] as number) : 1;
      sum += w;
      counts[k] = (counts[k] as number) + w;
      if (offset) offsets += w * (offset[position] as number);
    }
    weights[time] = sum;
  }
  const design = new Float64Array(width);
  for (let k = 0; k < counts.length; k++)
    for (let j = 0; j < width; j++)
      design[j] = (design[j] as number) + (counts[k] as number) * (table[k * width + j] as number);
  return { weight: weights, design, offset: offsets };
}

/** Linear predictor of each pattern at centred, scaled coefficients. */
export function patternPredictors({ table, patterns, width }: CoxProblem, beta: Float64Array): Float64Array {
  const predictors = new Float64Array(patterns);
  for (let k = 0; k < patterns; k++) {
    let sum = 0;
    for (let j = 0; j < width; j++) sum += (table[k * width + j] as number) * (beta[j] as number);
    predictors[k] = sum;
  }
  return predictors;
}

/** The same problem with only the listed columns, ascending; it takes the table over, and the problem given is of no use any more. */
export function keepColumns(problem: CoxProblem, kept: readonly number[]): CoxProblem {
  const table = pickColumns(problem.table, problem.width, kept);
  const pick = (values: Float64Array) => Float64Array.from(kept, (j) => values[j] as number);
  const events = { ...problem.events, design: pick(problem.events.design) };
  return { ...problem, width: kept.length, table, centre: pick(problem.centre), scale: pick(problem.scale), events };
}
