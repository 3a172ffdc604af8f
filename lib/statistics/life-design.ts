import { designMatrix, type DesignMatrix, type DesignSource } from './design-matrix.ts';
import { designPatterns } from './design-patterns.ts';
import type { LifeDesign } from './log-life-likelihood.ts';
import type { LifeRows } from './life-rows.ts';
import { addColumnProducts } from './numeric/column-products.ts';
import { independentColumns, type RegressionWarning } from './regression-result.ts';
import type { Covariates } from './survival-data.ts';

/**
 * Covariates centred at their means and divided by their ranges, so that the fit does not depend
 * on their units: coefficient j of the fit is scale[j] times that of the covariate as given.
 */
export interface StandardisedDesign extends LifeDesign {
  readonly terms: readonly string[];
  readonly centre: Float64Array;
  readonly scale: Float64Array;
  /** Columns left out because they say nothing of their own. */
  readonly warnings: readonly RegressionWarning[];
}

/** What of checked rows a design needs. */
export type DesignRows = Pick<LifeRows, 'size' | 'source' | 'weight' | 'totalWeight'>;

/** @throws StatisticsError naming the covariate at fault. */
export function lifeDesign(covariates: Covariates, rows: DesignRows, length: number): StandardisedDesign {
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
  return keepIndependent({ width, count, table, pattern, terms: matrix.terms, centre, scale, warnings: [] }, weight);
}

function fillColumn(
  { sources, sourceOf, levelOf }: DesignMatrix,
  j: number,
  source: Int32Array | null,
  column: Float64Array,
) {
  const covariate = sources[sourceOf[j] as number] as DesignSource;
  const level = levelOf[j] as number;
  for (let k = 0; k < column.length; k++) {
    const row = source ? (source[k] as number) : k;
    if ('numbers' in covariate) column[k] = covariate.numbers[row] as number;
    else if ('levels' in covariate) column[k] = covariate.codes[row] === level ? 1 : 0;
    else column[k] = covariate.values[covariate.codes[row] as number] as number;
  }
}

/** Share of the weight that each design row carries. */
function patternWeights(rows: DesignRows, pattern: Int32Array | null, count: number): Float64Array {
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

const LEFT_OUT = {
  constant: 'is the same in every row, so it was left out',
  collinear: 'is a combination of the terms before it, so it was left out',
};

function keepIndependent(design: StandardisedDesign, weight: Float64Array): StandardisedDesign {
  const { table, count, width, terms } = design;
  const gram = new Float64Array(width * width);
  addColumnProducts(table, count, width, weight, 0, count, gram, width);
  for (let j = 0; j < width; j++) for (let i = 0; i < j; i++) gram[j * width + i] = gram[i * width + j] as number;
  // Of a constant column only rounding is left after centring.
  const { kept, reasons } = independentColumns(gram, width, 1e-20);
  if (kept.length === width) return design;
  const warnings = [...reasons].map(([j, kind]): RegressionWarning => {
    return { kind, term: terms[j] as string, message: `${terms[j]} ${LEFT_OUT[kind]}` };
  });
  const slim = new Float64Array(count * kept.length);
  kept.forEach((j, to) => slim.set(table.subarray(j * count, (j + 1) * count), to * count));
  const pick = (values: Float64Array) => Float64Array.from(kept, (j) => values[j] as number);
  return {
    ...design,
    width: kept.length,
    table: slim,
    terms: kept.map((j) => terms[j] as string),
    centre: pick(design.centre),
    scale: pick(design.scale),
    warnings,
  };
}
