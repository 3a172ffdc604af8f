import { designMatrix, type DesignMatrix, type DesignSource } from './design-matrix.ts';
import { designPatterns } from './design-patterns.ts';
import type { LifeDesign } from './log-life-likelihood.ts';
import type { LifeRows } from './life-rows.ts';
import { addColumnProducts } from './numeric/column-products.ts';
import { cholesky, choleskyFailed } from './numeric/cholesky.ts';
import { StatisticsError } from './statistics-error.ts';
import type { Covariates } from './survival-data.ts';

/**
 * Covariates centred at their means and divided by their ranges, so that the fit does not depend
 * on their units: coefficient j of the fit is scale[j] times that of the covariate as given.
 */
export interface StandardisedDesign extends LifeDesign {
  readonly terms: readonly string[];
  readonly centre: Float64Array;
  readonly scale: Float64Array;
}

/** @throws StatisticsError naming the covariate, also where a column is constant or depends on those before it. */
export function lifeDesign(covariates: Covariates, rows: LifeRows, length: number): StandardisedDesign {
  const matrix = designMatrix(covariates, length);
  const width = matrix.terms.length;
  const folded = width === 0 ? null : designPatterns(matrix);
  const count = folded ? folded.count : rows.size;
  const table = new Float64Array(count * width);
  for (let j = 0; j < width; j++)
    fillColumn(matrix, j, folded ? folded.example : rows.source, table.subarray(j * count, (j + 1) * count));
  const pattern = folded && (rows.source ? rows.source.map((row) => folded.ofRow[row] as number) : folded.ofRow);
  const weight = patternWeights(rows, pattern, count);
  const { centre, scale } = standardise(table, width, weight);
  requireIndependent(matrix, table, weight);
  return { width, count, table, pattern, terms: matrix.terms, centre, scale };
}

function fillColumn(
  { sources, sourceOf, levelOf }: DesignMatrix,
  j: number,
  source: Int32Array | null,
  column: Float64Array,
) {
  const covariate = sources[sourceOf[j] as number] as DesignSource;
  const level = levelOf[j] as number;
  const row = (k: number) => (source ? (source[k] as number) : k);
  if ('codes' in covariate)
    for (let k = 0; k < column.length; k++) column[k] = covariate.codes[row(k)] === level ? 1 : 0;
  else for (let k = 0; k < column.length; k++) column[k] = covariate.values[row(k)] as number;
}

/** Share of the weight that each design row carries. */
function patternWeights(rows: LifeRows, pattern: Int32Array | null, count: number): Float64Array {
  const weight = new Float64Array(count);
  for (let row = 0; row < rows.size; row++) {
    const at = pattern ? (pattern[row] as number) : row;
    weight[at] = (weight[at] as number) + (rows.weight ? (rows.weight[row] as number) : 1) / rows.totalWeight;
  }
  return weight;
}

function standardise(table: Float64Array, width: number, weight: Float64Array) {
  const count = weight.length;
  const centre = new Float64Array(width);
  const scale = new Float64Array(width).fill(1);
  for (let j = 0; j < width; j++) {
    const column = table.subarray(j * count, (j + 1) * count);
    let [mean, low, high] = [0, Infinity, -Infinity];
    for (let k = 0; k < count; k++) {
      if (weight[k] === 0) continue;
      const value = column[k] as number;
      mean += (weight[k] as number) * value;
      if (value < low) low = value;
      if (value > high) high = value;
    }
    centre[j] = mean;
    if (high > low) scale[j] = high - low;
    const range = scale[j] as number;
    for (let k = 0; k < count; k++) column[k] = ((column[k] as number) - mean) / range;
  }
  return { centre, scale };
}

function requireIndependent(
  { terms, sources, sourceOf }: DesignMatrix,
  table: Float64Array,
  weight: Float64Array,
): void {
  const width = terms.length;
  const count = weight.length;
  const gram = new Float64Array(width * width);
  addColumnProducts(table, count, width, weight, 0, count, gram, width);
  for (let j = 0; j < width; j++) for (let i = 0; i < j; i++) gram[j * width + i] = gram[i * width + j] as number;
  // A constant column leaves rounding only on its diagonal, which no relative pivot would catch.
  const flat = terms.findIndex((_, j) => !((gram[j * width + j] as number) > 1e-20));
  const factor = cholesky(gram, width, 1e-11);
  const bad = flat >= 0 ? flat : choleskyFailed(factor) ? factor.failedPivot : -1;
  if (bad < 0) return;
  const name = sources[sourceOf[bad] as number]?.name as string;
  const fault = flat >= 0 ? 'is the same in every row' : 'is fixed by the covariates before it';
  throw new StatisticsError(`covariates.${name}`, `${terms[bad]} ${fault}: its coefficient cannot be told`);
}
