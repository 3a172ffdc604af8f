import { designMatrix, designTable } from './design-matrix.ts';
import { designPatterns } from './design-patterns.ts';
import { climb, type Slope } from './newton-climb.ts';
import { StatisticsError } from './statistics-error.ts';
import { toCategory, type CategoryColumn, type Covariates, type NumberColumn } from './survival-data.ts';

export interface StandardisingData {
  /** 1 for the lives whose mix is the standard, 0 for those brought to it. */
  readonly exposed: NumberColumn;
  readonly covariates?: Covariates;
  readonly strata?: CategoryColumn;
}

export interface StandardisingWeights {
  /** 1 for an exposed life; for another the odds of exposure among lives like it. */
  readonly weight: Float64Array;
  /** As many lives without the exposure as would tell as much unweighted: (Σw)²/Σw² (Kish 1965 §11.7). */
  readonly effectiveOthers: number;
  readonly converged: boolean;
  /** Why all weights but the exposed ones' are zero; null where they stand. */
  readonly reason: string | null;
}

/**
 * Keeps a coefficient that nothing bounds (a stratum without an exposed life) finite; what it does to the others is
 * below the tolerance of the outside check.
 */
const RIDGE = 1e-8;

/**
 * Weights that give lives without an exposure the mix of covariates and strata of the lives with it, so that weighted
 * curves of both compare like with like: odds of exposure by a logistic model, main effects of the covariates and a
 * term a stratum. Robust errors of weighted curves take the weights as known; limits of the restricted mean so had held the truth in 95 % of simulated fleets.
 *
 * Source: Cole & Hernán 2004, Comput. Methods Programs Biomed. 75:45 (survival curves by inverse probability);
 * weights to the mix of the exposed: Sato & Matsuyama 2003, Epidemiology 14:680.
 * Outside check: R `glm(family = binomial)`, 1e-6; coverage of the weighted restricted mean by simulation.
 *
 * @throws StatisticsError naming argument and row for columns of bad length, an exposure other than 0 and 1.
 */
export function standardisingWeights({ exposed, covariates = {}, strata }: StandardisingData): StandardisingWeights {
  const rows = exposed.length;
  const sides = checkedSides(exposed);
  const empty = { weight: Float64Array.from(exposed), effectiveOthers: 0, converged: false };
  if (sides.exposed === 0) return { ...empty, reason: 'no life has the exposure' };
  if (sides.exposed === rows) return { ...empty, reason: 'every life has the exposure' };
  const design = designMatrix(
    strata ? { ...covariates, stratum: toCategory('strata', strata, rows) } : covariates,
    rows,
  );
  const folded = designPatterns(design);
  const patternOf = folded ? folded.ofRow : Int32Array.from({ length: rows }, (_, row) => row);
  const example = folded ? folded.example : patternOf;
  const sums = { all: new Float64Array(example.length), exposed: new Float64Array(example.length) };
  for (let row = 0; row < rows; row++) {
    const pattern = patternOf[row] as number;
    sums.all[pattern] = (sums.all[pattern] as number) + 1;
    sums.exposed[pattern] = (sums.exposed[pattern] as number) + (exposed[row] as number);
  }
  const table = designTable(design, example);
  const width = design.terms.length + 1;
  const start = new Float64Array(width);
  start[0] = Math.log(sides.exposed / (rows - sides.exposed));
  const free = [...start.keys()];
  const found = climb((beta) => logistic(table, sums, beta), start, free, 100);
  const odds = oddsAt(table, width, found.beta, example.length);
  const weight = Float64Array.from(exposed, (one, row) => (one === 1 ? 1 : (odds[patternOf[row] as number] as number)));
  let [sum, squares] = [0, 0];
  for (let row = 0; row < rows; row++) {
    if (exposed[row] === 1) continue;
    sum += weight[row] as number;
    squares += (weight[row] as number) ** 2;
  }
  return {
    weight,
    effectiveOthers: (sum * sum) / squares,
    converged: found.converged,
    reason: found.converged ? null : 'the model of who has the exposure has no maximum',
  };
}

function checkedSides(exposed: NumberColumn): { readonly exposed: number } {
  let count = 0;
  for (let row = 0; row < exposed.length; row++) {
    const one = exposed[row];
    if (one !== 0 && one !== 1) throw new StatisticsError('exposed', `is ${one}, not 0 or 1`, row);
    count += one;
  }
  return { exposed: count };
}

function oddsAt(table: Float64Array, width: number, beta: Float64Array, patterns: number): Float64Array {
  const odds = new Float64Array(patterns);
  for (let pattern = 0, at = 0; pattern < patterns; pattern++) {
    let sum = beta[0] as number;
    for (let j = 1; j < width; j++, at++) sum += (table[at] as number) * (beta[j] as number);
    odds[pattern] = Math.exp(sum);
  }
  return odds;
}

interface PatternCounts {
  readonly all: Float64Array;
  readonly exposed: Float64Array;
}

/** Log-likelihood of the logistic model by pattern, less the ridge, with its derivatives. */
function logistic(table: Float64Array, { all, exposed }: PatternCounts, beta: Float64Array): Slope {
  const width = beta.length;
  const odds = oddsAt(table, width, beta, all.length);
  const score = beta.map((value) => -RIDGE * value);
  let value = beta.reduce((sum, one) => sum - (RIDGE * one * one) / 2, 0);
  const cell = (pattern: number, j: number) => (j === 0 ? 1 : (table[pattern * (width - 1) + j - 1] as number));
  for (let pattern = 0; pattern < all.length; pattern++) {
    const [n, y, odd] = [all[pattern] as number, exposed[pattern] as number, odds[pattern] as number];
    value += (y === 0 ? 0 : y * Math.log(odd)) - n * Math.log1p(odd);
    const rest = y - n * (odd / (1 + odd));
    for (let j = 0; j < width; j++) score[j] = (score[j] as number) + rest * cell(pattern, j);
  }
  const information = (): Float64Array => {
    const matrix = new Float64Array(width * width);
    for (let j = 0; j < width; j++) matrix[j * width + j] = RIDGE;
    for (let pattern = 0; pattern < all.length; pattern++) {
      const odd = odds[pattern] as number;
      const spread = (all[pattern] as number) * (odd / (1 + odd) ** 2);
      for (let j = 0; j < width; j++) {
        const one = cell(pattern, j);
        if (one === 0) continue;
        for (let k = 0; k < width; k++)
          matrix[j * width + k] = (matrix[j * width + k] as number) + spread * one * cell(pattern, k);
      }
    }
    return matrix;
  };
  return { value, score, information };
}
