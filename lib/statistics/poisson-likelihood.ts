import { NEGLIGIBLE, type Climbable } from './climb-to-top.ts';
import type { StandardisedDesign } from './life-design.ts';
import { linearPredictors, type LifeDesign } from './log-life-likelihood.ts';
import type { Slope } from './newton-climb.ts';
import { addWeightedProducts, addWeightedRows, withIntercept } from './numeric/weighted-products.ts';
import type { CountRows } from './poisson-data.ts';

/**
 * Counts ready to be fitted, the predictor of a row being γ₀ + Σ γ_j x_j of its design row. All that a Poisson
 * likelihood needs of the rows that share a design row are their events and exposure in all.
 */
export interface CountProblem {
  readonly rows: CountRows;
  readonly design: LifeDesign;
  /** Σ weight · events and Σ weight · e^offset over the rows of each design row. */
  readonly events: Float64Array;
  readonly exposure: Float64Array;
  /** What of the Poisson log-likelihood does not depend on γ. */
  readonly constant: number;
}

/** A design of nothing but the intercept. */
export const interceptOnly = (rows: CountRows): StandardisedDesign => ({
  ...{ width: 0, count: 1, table: new Float64Array(0), pattern: new Int32Array(rows.size) },
  ...{ terms: [], centre: new Float64Array(0), scale: new Float64Array(0), warnings: [] },
});

export function countProblem(rows: CountRows, design: LifeDesign): CountProblem {
  const [events, exposure] = [new Float64Array(design.count), new Float64Array(design.count)];
  let constant = rows.logFactorials;
  for (let row = 0; row < rows.size; row++) {
    const k = design.pattern ? (design.pattern[row] as number) : row;
    const w = rows.weight ? (rows.weight[row] as number) : 1;
    const [y, offset] = [rows.events[row] as number, rows.offset[row] as number];
    events[k] = (events[k] as number) + w * y;
    exposure[k] = (exposure[k] as number) + w * Math.exp(offset);
    constant += w * y * offset;
  }
  return { rows, design, events, exposure, constant };
}

/** The predictor of each design row. */
export function predictorsOf({ design }: CountProblem, gamma: Float64Array): Float64Array {
  const predictors = new Float64Array(design.count);
  linearPredictors(design, gamma, 0, design.count, predictors);
  return predictors;
}

/** The Poisson log-likelihood over γ, to be climbed. */
export function poissonLikelihood(problem: CountProblem): Climbable {
  const evaluate = (gamma: Float64Array): Slope => {
    const predictors = predictorsOf(problem, gamma);
    const expected = predictors.map((eta, k) => (problem.exposure[k] as number) * Math.exp(eta));
    let value = problem.constant;
    const slopes = expected.map((mean, k) => {
      const seen = problem.events[k] as number;
      value += seen * (predictors[k] as number) - mean;
      return seen - mean;
    });
    return scoreAndInformation(problem, value, slopes, expected);
  };
  return climbable(problem, evaluate);
}

export const climbable = (problem: CountProblem, evaluate: Climbable['evaluate']): Climbable => ({
  width: problem.design.width + 1,
  evaluate,
  isMonotone: (direction) => isMonotone(problem, direction),
});

/** A slope from the first derivatives, and minus the second, by the predictor of each design row. */
export function scoreAndInformation(
  { design }: CountProblem,
  value: number,
  slopes: Float64Array,
  curves: Float64Array,
): Slope {
  return { value, score: overTerms(design, slopes), information: () => productsOverTerms(design, curves) };
}

/** Σ_k values_k · (1, x_k). */
export function overTerms({ table, count, width }: LifeDesign, values: Float64Array): Float64Array {
  const sums = new Float64Array(width + 1);
  sums[0] = values.reduce((sum, value) => sum + value, 0);
  addWeightedRows(sums.subarray(1), table, width, 0, count, values, 0);
  return sums;
}

/** Σ_k values_k · (1, x_k)(1, x_k)ᵀ, row-major. */
export function productsOverTerms(design: LifeDesign, values: Float64Array): Float64Array {
  const { width, table, count } = design;
  const products = new Float64Array(width * width);
  addWeightedProducts(products, table, width, count, values, 1);
  return withIntercept(overTerms(design, values), products, width);
}

/**
 * Whether the likelihood is monotone along a direction: it leaves the rate of every row with events alone and raises
 * no other (Haberman 1974, The Analysis of Frequency Data, §2.2). The same for Poisson and negative binomial counts.
 */
function isMonotone(problem: CountProblem, direction: Float64Array): boolean {
  let falls = false;
  const moves = predictorsOf(problem, direction);
  for (let k = 0; k < moves.length; k++) {
    if (problem.exposure[k] === 0) continue;
    const move = moves[k] as number;
    if (move > NEGLIGIBLE || ((problem.events[k] as number) > 0 && move < -NEGLIGIBLE)) return false;
    if (move < -NEGLIGIBLE) falls = true;
  }
  return falls;
}
