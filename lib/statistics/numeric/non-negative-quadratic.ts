import { cholesky, choleskyFailed, solveCholesky } from './cholesky.ts';

/**
 * Solves A y = b for symmetric non-negative-definite A, row-major n × n; where A is singular a
 * ridge, raised until the factor exists, picks one of the solutions.
 */
export const solveRidged = (a: Float64Array, n: number, b: Float64Array): Float64Array =>
  solveRidgedOver(a, b, [...b.keys()], new Float64Array(n * n));

/** As `solveRidged`, over the rows and columns listed alone; `room` holds the factor. */
function solveRidgedOver(
  a: Float64Array,
  b: Float64Array,
  listed: readonly number[],
  room: Float64Array,
): Float64Array {
  const [n, size] = [b.length, listed.length];
  const target = Float64Array.from(listed, (k) => b[k] as number);
  for (let ridge = 1e-14; ; ridge *= 100) {
    for (let row = 0; row < size; row++) {
      const from = (listed[row] as number) * n;
      for (let column = 0; column < row; column++)
        room[row * size + column] = a[from + (listed[column] as number)] as number;
      room[row * size + row] = (a[from + (listed[row] as number)] as number) * (1 + ridge) + 1e-300;
    }
    const factor = cholesky(room, size, 1e-15, room);
    if (!choleskyFailed(factor)) return solveCholesky(factor, target);
    if (ridge > 1)
      return target.map((value, k) => value / Math.max(a[(listed[k] as number) * (n + 1)] as number, 1e-300));
  }
}

/**
 * Minimises ½ yᵀ A y − bᵀ y over y ≥ 0 by block principal pivoting (Portugal, Júdice & Vicente
 * 1994, Math. Comp. 63:625): all variables on the wrong side change sides together, one at a time
 * when that stops helping. `start` tells by its positive entries which variables begin free; `room` is of a's size.
 */
export function minimiseNonNegative(
  a: Float64Array,
  b: Float64Array,
  start: Float64Array,
  room: Float64Array = new Float64Array(a.length),
): Float64Array {
  const n = b.length;
  const free = Uint8Array.from(start, (value) => (value > 0 ? 1 : 0));
  let [fewest, patience] = [n + 1, 3];
  for (let round = 0; round < 3 * n + 20; round++) {
    const y = solveFree(a, b, free, room);
    const wrong = wrongSide(a, b, y, free);
    if (wrong.length === 0) return y;
    if (wrong.length < fewest) [fewest, patience] = [wrong.length, 3];
    else patience--;
    const changing = patience > 0 ? wrong : wrong.slice(-1);
    for (const k of changing) free[k] = free[k] ? 0 : 1;
  }
  return solveFree(a, b, free, room).map((value) => Math.max(0, value));
}

function solveFree(a: Float64Array, b: Float64Array, free: Uint8Array, room: Float64Array): Float64Array {
  const listed = [...free.keys()].filter((k) => free[k]);
  const solved = solveRidgedOver(a, b, listed, room);
  const y = new Float64Array(b.length);
  listed.forEach((k, i) => (y[k] = solved[i] as number));
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
