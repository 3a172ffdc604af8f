import type { FractionParts } from './attributable-fraction.ts';
import { cholesky, choleskyFailed, solveCholesky } from './numeric/cholesky.ts';
import { addWeightedProducts, mirrorLower } from './numeric/weighted-products.ts';
import { independentColumns, subMatrix } from './regression-result.ts';

/** The parts of a fraction whose ratios come from a fit, slopes in the order of `exposed`. */
export interface FailureSums extends Omit<FractionParts, 'covariance'> {
  /** 1 / ratio of each failure. */
  readonly inverse: Float64Array;
}

/**
 * Sums over failures: `count` how many each row stands for, `table` their values of the fit's terms,
 * row-major, `exposed` the terms taken away.
 */
export function sumOverFailures(
  count: Float64Array,
  table: Float64Array,
  coefficients: Float64Array,
  exposed: readonly number[],
): FailureSums {
  const width = coefficients.length;
  const cases = count.reduce((sum, value) => sum + value, 0);
  const inverse = count.map((_, row) => {
    let log = 0;
    for (const j of exposed) {
      const x = table[row * width + j] as number;
      if (x !== 0) log += x * (coefficients[j] as number);
    }
    return Math.exp(-log);
  });
  const mean = (of: (row: number) => number) => count.reduce((sum, value, row) => sum + value * of(row), 0) / cases;
  const complement = mean((row) => inverse[row] as number);
  const together = slopesOf(inverse, complement, count, table, width);
  return {
    cases,
    inverse,
    complement,
    shareVariance: mean((row) => ((inverse[row] as number) - complement) ** 2) / cases,
    slope: Float64Array.from(
      exposed,
      (j) => -mean((row) => (table[row * width + j] as number) * (inverse[row] as number)),
    ),
    together: Float64Array.from(exposed, (j) => (together[j] as number) / cases),
  };
}

/** Least-squares slopes of 1/ratio on the terms among the failures; zero for terms that say nothing of their own. */
function slopesOf(
  inverse: Float64Array,
  complement: number,
  count: Float64Array,
  table: Float64Array,
  width: number,
): Float64Array {
  const slopes = new Float64Array(width);
  const total = count.reduce((sum, value) => sum + value, 0);
  const centred = table.slice();
  const squares = new Float64Array(width);
  for (let j = 0; j < width; j++) {
    let sum = 0;
    for (let row = 0; row < count.length; row++) sum += (count[row] as number) * (table[row * width + j] as number);
    for (let row = 0, at = j; row < count.length; row++, at += width) {
      const value = table[at] as number;
      squares[j] = (squares[j] as number) + (count[row] as number) * value * value;
      centred[at] = value - sum / total;
    }
  }
  const products = new Float64Array(width * width);
  addWeightedProducts(products, centred, width, count.length, count, 1);
  mirrorLower(products, width);
  // What centring leaves of a column that is the same for all failures is rounding.
  squares.forEach((square, j) => {
    if (!((products[j * width + j] as number) > 1e-12 * square)) products[j * width + j] = 0;
  });
  const { kept } = independentColumns(products, width, 0);
  const right = kept.map((j) =>
    count.reduce(
      (sum, value, row) => sum + value * (centred[row * width + j] as number) * ((inverse[row] as number) - complement),
      0,
    ),
  );
  const factor = cholesky(subMatrix(products, width, kept), kept.length, 1e-12);
  if (choleskyFailed(factor)) return slopes;
  solveCholesky(factor, right).forEach((slope, at) => (slopes[kept[at] as number] = slope));
  return slopes;
}
