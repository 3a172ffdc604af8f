import { designMatrix, designTable } from './design-matrix.ts';
import { designPatterns } from './design-patterns.ts';
import { pickColumns, standardise } from './design-standardise.ts';
import type { LifeDesign } from './log-life-likelihood.ts';
import type { LifeRows } from './life-rows.ts';
import { addWeightedProducts, mirrorLower } from './numeric/weighted-products.ts';
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
  const example = folded ? folded.example : (rows.source ?? Uint32Array.from({ length: rows.size }, (_, row) => row));
  const table = designTable(matrix, example);
  const pattern = folded && (rows.source ? rows.source.map((row) => folded.ofRow[row] as number) : folded.ofRow);
  const weight = patternWeights(rows, pattern, count);
  const { centre, scale } = standardise(table, width, weight);
  return keepIndependent({ width, count, table, pattern, terms: matrix.terms, centre, scale, warnings: [] }, weight);
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

const LEFT_OUT = {
  constant: 'is the same in every row, so it was left out',
  collinear: 'is a combination of the terms before it, so it was left out',
};

function keepIndependent(design: StandardisedDesign, weight: Float64Array): StandardisedDesign {
  const { table, count, width, terms } = design;
  const gram = new Float64Array(width * width);
  addWeightedProducts(gram, table, width, count, weight, 1);
  mirrorLower(gram, width);
  // Of a constant column only rounding is left after centring.
  const { kept, reasons } = independentColumns(gram, width, 1e-20);
  if (kept.length === width) return design;
  const warnings = [...reasons].map(([j, kind]): RegressionWarning => {
    return { kind, term: terms[j] as string, message: `${terms[j]} ${LEFT_OUT[kind]}` };
  });
  const pick = (values: Float64Array) => Float64Array.from(kept, (j) => values[j] as number);
  return {
    ...design,
    width: kept.length,
    table: pickColumns(table, width, kept),
    terms: kept.map((j) => terms[j] as string),
    centre: pick(design.centre),
    scale: pick(design.scale),
    warnings,
  };
}
