import type { TurnbullProblem } from './turnbull-problem.ts';

/** Value and derivatives of the likelihood at x; `first` is the gradient, `second` minus the Hessian's diagonal. */
export interface TurnbullPoint {
  readonly x: Float64Array;
  readonly value: number;
  readonly first: Float64Array;
  readonly second: Float64Array;
  /** h q (1 + q) of each set, q = 1 / (e^s − 1): minus the second derivative of its term. */
  readonly curve: Float64Array;
}

/** Room for one point and what is worked out on the way to the next: a climb takes two, by turns, whatever its steps. */
export interface TurnbullRoom {
  readonly x: Float64Array;
  /** Running sums of x, or of another vector. */
  readonly sums: Float64Array;
  readonly first: Float64Array;
  readonly second: Float64Array;
  readonly curve: Float64Array;
}

export const turnbullRoom = ({ last, weight }: TurnbullProblem): TurnbullRoom => ({
  x: new Float64Array(last),
  sums: new Float64Array(last + 1),
  first: new Float64Array(last + 1),
  second: new Float64Array(last + 1),
  curve: new Float64Array(weight.length),
});

/** The log-likelihood at the room's x; fills its sums. */
export function valueAt({ cost, from, to, weight, last }: TurnbullProblem, { x, sums }: TurnbullRoom): number {
  let value = 0;
  for (let j = 0; j < last; j++) {
    value -= (cost[j] as number) * (x[j] as number);
    sums[j + 1] = (sums[j] as number) + (x[j] as number);
  }
  for (let r = 0; r < weight.length; r++) {
    const s = (sums[(to[r] as number) + 1] as number) - (sums[from[r] as number] as number);
    value += (weight[r] as number) * Math.log(-Math.expm1(-s));
  }
  return value;
}

/** The point at the room's x. */
export function pointAt(problem: TurnbullProblem, room: TurnbullRoom): TurnbullPoint {
  const { cost, from, to, weight, last } = problem;
  const { x, sums, first, second, curve } = room;
  const value = valueAt(problem, room);
  first.fill(0);
  second.fill(0);
  for (let r = 0; r < weight.length; r++) {
    const begin = from[r] as number;
    const end = (to[r] as number) + 1;
    const q = 1 / Math.expm1((sums[end] as number) - (sums[begin] as number));
    const pull = (weight[r] as number) * q;
    const bend = pull * (1 + q);
    curve[r] = bend;
    first[begin] = (first[begin] as number) + pull;
    first[end] = (first[end] as number) - pull;
    second[begin] = (second[begin] as number) + bend;
    second[end] = (second[end] as number) - bend;
  }
  accumulate(first, last);
  accumulate(second, last);
  for (let j = 0; j < last; j++) first[j] = (first[j] as number) - (cost[j] as number);
  return { x, value, first: first.subarray(0, last), second: second.subarray(0, last), curve };
}

/** Running sums of the first `last` + 1 values, in place. */
export function accumulate(values: Float64Array, last: number): void {
  for (let j = 1; j <= last; j++) values[j] = (values[j] as number) + (values[j - 1] as number);
}

/** Minus the Hessian times v, put into `product`; `sums` is room for v's running sums. Both are one longer than v. */
export function curvatureTimes(
  { from, to, last }: TurnbullProblem,
  curve: Float64Array,
  v: Float64Array,
  product: Float64Array,
  sums: Float64Array,
): void {
  for (let j = 0; j < last; j++) sums[j + 1] = (sums[j] as number) + (v[j] as number);
  product.fill(0);
  for (let r = 0; r < curve.length; r++) {
    const begin = from[r] as number;
    const end = (to[r] as number) + 1;
    const amount = (curve[r] as number) * ((sums[end] as number) - (sums[begin] as number));
    product[begin] = (product[begin] as number) + amount;
    product[end] = (product[end] as number) - amount;
  }
  accumulate(product, last);
}

/** Minus the Hessian over the increments listed (ascending), row-major, by corner sums: entry jk adds up the sets that hold both. */
export function curvatureOver(
  { from, to, last }: TurnbullProblem,
  curve: Float64Array,
  free: readonly number[],
  matrix: Float64Array = new Float64Array(free.length ** 2),
): Float64Array {
  const n = free.length;
  matrix.fill(0);
  // How many of those listed lie before each interval.
  const place = new Uint16Array(last + 1);
  free.forEach((j) => (place[j + 1] = 1));
  for (let j = 1; j <= last; j++) place[j] = (place[j] as number) + (place[j - 1] as number);
  for (let r = 0; r < curve.length; r++) {
    const row = place[from[r] as number] as number;
    const column = (place[(to[r] as number) + 1] as number) - 1;
    if (row <= column) matrix[row * n + column] = (matrix[row * n + column] as number) + (curve[r] as number);
  }
  for (let row = 0; row < n; row++)
    for (let column = n - 1; column >= row; column--) {
      const above = row > 0 ? (matrix[(row - 1) * n + column] as number) : 0;
      const right = column < n - 1 ? (matrix[row * n + column + 1] as number) : 0;
      const corner = row > 0 && column < n - 1 ? (matrix[(row - 1) * n + column + 1] as number) : 0;
      matrix[row * n + column] = (matrix[row * n + column] as number) + above + right - corner;
    }
  for (let row = 0; row < n; row++)
    for (let column = 0; column < row; column++) matrix[row * n + column] = matrix[column * n + row] as number;
  return matrix;
}
