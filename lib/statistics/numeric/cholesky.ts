/**
 * Dense symmetric positive-definite algebra for the information matrices of the regressions
 * (tens of parameters, never thousands). Matrices are row-major Float64Array of length n × n.
 * Source: Golub & Van Loan, Matrix Computations (4th ed.) §4.2.3.
 */

/** A lower-triangular factor L with a = L Lᵀ; the strict upper triangle holds zeros, or is not to be read. */
export interface CholeskyFactor {
  readonly size: number;
  readonly lower: Float64Array;
}

/** Where the factorisation broke down: column `pivot` depends on the columns before it (or the matrix is indefinite). */
export interface CholeskyFailure {
  readonly failedPivot: number;
}

/**
 * Factors a symmetric matrix (only its lower triangle is read). A pivot is refused when it falls
 * below `tolerance` times its diagonal: what is left of the column after the earlier columns are
 * taken out, as a share of what it was, so the test does not depend on the units of the columns.
 * With `lower` the factor is put there, in place if that is `a` itself; its upper triangle then stays as it is.
 */
export function cholesky(
  a: Float64Array,
  n: number,
  tolerance = 1e-12,
  lower: Float64Array = new Float64Array(n * n),
): CholeskyFactor | CholeskyFailure {
  for (let column = 0; column < n; column++) {
    const diagonal = a[column * n + column] as number;
    let rest = diagonal;
    for (let k = 0; k < column; k++) rest -= (lower[column * n + k] as number) ** 2;
    if (!(rest > 0) || !(rest > tolerance * diagonal) || !Number.isFinite(rest)) return { failedPivot: column };
    const pivot = Math.sqrt(rest);
    lower[column * n + column] = pivot;
    for (let row = column + 1; row < n; row++) {
      let sum = a[row * n + column] as number;
      for (let k = 0; k < column; k++) sum -= (lower[row * n + k] as number) * (lower[column * n + k] as number);
      lower[row * n + column] = sum / pivot;
    }
  }
  return { size: n, lower };
}

/** Whether a factorisation broke down. */
export const choleskyFailed = (result: CholeskyFactor | CholeskyFailure): result is CholeskyFailure =>
  'failedPivot' in result;

/** x with a x = b, from the factor of a; `b` is left as it is. */
export function solveCholesky({ size, lower }: CholeskyFactor, b: ArrayLike<number>): Float64Array {
  const x = Float64Array.from(b);
  for (let row = 0; row < size; row++) {
    let sum = x[row] as number;
    for (let k = 0; k < row; k++) sum -= (lower[row * size + k] as number) * (x[k] as number);
    x[row] = sum / (lower[row * size + row] as number);
  }
  for (let row = size - 1; row >= 0; row--) {
    let sum = x[row] as number;
    for (let k = row + 1; k < size; k++) sum -= (lower[k * size + row] as number) * (x[k] as number);
    x[row] = sum / (lower[row * size + row] as number);
  }
  return x;
}

/** The inverse of a from its factor, exactly symmetric, row-major n × n. */
export function invertCholesky(factor: CholeskyFactor): Float64Array {
  const { size } = factor;
  const inverse = new Float64Array(size * size);
  const unit = new Float64Array(size);
  for (let column = 0; column < size; column++) {
    unit.fill(0);
    unit[column] = 1;
    const x = solveCholesky(factor, unit);
    for (let row = column; row < size; row++)
      inverse[row * size + column] = inverse[column * size + row] = x[row] as number;
  }
  return inverse;
}

/** log |a| from the factor of a. */
export function logDeterminant({ size, lower }: CholeskyFactor): number {
  let sum = 0;
  for (let k = 0; k < size; k++) sum += Math.log(lower[k * size + k] as number);
  return 2 * sum;
}

/** The sandwich A M A for symmetric A and M, row-major n × n: model-based covariance around the cluster-summed scores. */
export function sandwich(bread: Float64Array, meat: Float64Array, n: number): Float64Array {
  const half = multiplySquare(bread, meat, n);
  const product = multiplySquare(half, bread, n);
  for (let row = 0; row < n; row++)
    for (let column = 0; column < row; column++) {
      const mean = ((product[row * n + column] as number) + (product[column * n + row] as number)) / 2;
      product[row * n + column] = product[column * n + row] = mean;
    }
  return product;
}

function multiplySquare(a: Float64Array, b: Float64Array, n: number): Float64Array {
  const product = new Float64Array(n * n);
  for (let row = 0; row < n; row++)
    for (let k = 0; k < n; k++) {
      const factor = a[row * n + k] as number;
      if (factor === 0) continue;
      for (let column = 0; column < n; column++)
        product[row * n + column] = (product[row * n + column] as number) + factor * (b[k * n + column] as number);
    }
  return product;
}
