import { cholesky, choleskyFailed, solveCholesky } from './cholesky.ts';

/**
 * Solves A y = b for symmetric non-negative-definite A, row-major n × n; where A is singular a
 * ridge, raised until the factor exists, picks one of the solutions.
 */
export function solveRidged(a: Float64Array, n: number, b: Float64Array): Float64Array {
  for (let ridge = 1e-14; ; ridge *= 100) {
    const lifted = a.slice();
    for (let k = 0; k < n; k++) lifted[k * n + k] = (lifted[k * n + k] as number) * (1 + ridge) + 1e-300;
    const factor = cholesky(lifted, n, 1e-15);
    if (!choleskyFailed(factor)) return solveCholesky(factor, b);
    if (ridge > 1) return b.map((value, k) => value / Math.max(a[k * n + k] as number, 1e-300));
  }
}

/**
 * Minimises ½ yᵀ A y − bᵀ y over y ≥ 0 by block principal pivoting (Portugal, Júdice & Vicente
 * 1994, Math. Comp. 63:625): all variables on the wrong side change sides together, one at a time
 * when that stops helping. `start` tells by its positive entries which variables begin free.
 */
export function minimiseNonNegative(a: Float64Array, b: Float64Array, start: Float64Array): Float64Array {
  const n = b.length;
  const free = Uint8Array.from(start, (value) => (value > 0 ? 1 : 0));
  let [fewest, patience] = [n + 1, 3];
  for (let round = 0; round < 3 * n + 20; round++) {
    const y = solveFree(a, b, free);
    const wrong = wrongSide(a, b, y, free);
    if (wrong.length === 0) return y;
    if (wrong.length < fewest) [fewest, patience] = [wrong.length, 3];
    else patience--;
    const changing = patience > 0 ? wrong : wrong.slice(-1);
    for (const k of changing) free[k] = free[k] ? 0 : 1;
  }
  return solveFree(a, b, free).map((value) => Math.max(0, value));
}

function solveFree(a: Float64Array, b: Float64Array, free: Uint8Array): Float64Array {
  const n = b.length;
  const index = [...free.keys()].filter((k) => free[k]);
  const part = new Float64Array(index.length ** 2);
  index.forEach((row, i) => index.forEach((column, j) => (part[i * index.length + j] = a[row * n + column] as number)));
  const solved = solveRidged(
    part,
    index.length,
    Float64Array.from(index, (k) => b[k] as number),
  );
  const y = new Float64Array(n);
  index.forEach((k, i) => (y[k] = solved[i] as number));
  return y;
}

/** Free variables below zero, and held ones that the objective would lower by letting go. */
function wrongSide(a: Float64Array, b: Float64Array, y: Float64Array, free: Uint8Array): number[] {
  const n = b.length;
  const wrong: number[] = [];
  for (let k = 0; k < n; k++) {
    if (free[k]) {
      if ((y[k] as number) < 0) wrong.push(k);
      continue;
    }
    let slope = -(b[k] as number);
    for (let j = 0; j < n; j++) slope += (a[k * n + j] as number) * (y[j] as number);
    if (slope < -1e-12 * Math.abs(b[k] as number)) wrong.push(k);
  }
  return wrong;
}
