/**
 * target += factor · Σ_k weight_k · x_k x_kᵀ over `count` rows x_k of a row-major count × width
 * table; `weight` null means all ones. Only the lower triangle is filled: call `mirrorLower` when
 * all is added.
 *
 * Taken four columns by four, so that sixteen running sums stay in registers while the rows stream
 * by; a plain triple loop spends most of its time loading and storing the target. Columns left over
 * go one by four. Rows are taken a tile at a time, which stays in cache while all the blocks pass.
 */
export function addWeightedProducts(
  target: Float64Array,
  table: Float64Array,
  width: number,
  count: number,
  weight: Float64Array | null,
  factor: number,
): void {
  const whole = width - (width % 4);
  for (let start = 0; start < count; start += TILE) {
    const end = Math.min(count, start + TILE);
    for (let row = 0; row < whole; row += 4)
      for (let column = 0; column <= row; column += 4)
        addBlock(target, table, width, start, end, weight, factor, row, column);
    for (let row = whole; row < width; row++) {
      for (let column = 0; column < whole; column += 4)
        addStrip(target, table, width, start, end, weight, factor, row, column);
      for (let column = whole; column <= row; column++)
        addOne(target, table, width, start, end, weight, factor, row, column);
    }
  }
}

/** Rows that stay in the second-level cache at the usual widths: 512 rows of 30 columns are 120 kB. */
const TILE = 512;

function addOne(
  target: Float64Array,
  table: Float64Array,
  width: number,
  start: number,
  end: number,
  weight: Float64Array | null,
  factor: number,
  row: number,
  column: number,
): void {
  let sum = 0;
  for (let k = start, at = start * width; k < end; k++, at += width) {
    const product = (table[at + row] as number) * (table[at + column] as number);
    sum += weight ? (weight[k] as number) * product : product;
  }
  target[row * width + column] = (target[row * width + column] as number) + factor * sum;
}

function addStrip(
  target: Float64Array,
  table: Float64Array,
  width: number,
  start: number,
  end: number,
  weight: Float64Array | null,
  factor: number,
  row: number,
  column: number,
): void {
  let [s0, s1, s2, s3] = [0, 0, 0, 0];
  for (let k = start, at = start * width + row, to = start * width + column; k < end; k++, at += width, to += width) {
    const a = (weight ? (weight[k] as number) : 1) * (table[at] as number);
    s0 += a * (table[to] as number);
    s1 += a * (table[to + 1] as number);
    s2 += a * (table[to + 2] as number);
    s3 += a * (table[to + 3] as number);
  }
  const at = row * width + column;
  target[at] = (target[at] as number) + factor * s0;
  target[at + 1] = (target[at + 1] as number) + factor * s1;
  target[at + 2] = (target[at + 2] as number) + factor * s2;
  target[at + 3] = (target[at + 3] as number) + factor * s3;
}

function addBlock(
  target: Float64Array,
  table: Float64Array,
  width: number,
  start: number,
  end: number,
  weight: Float64Array | null,
  factor: number,
  row: number,
  column: number,
): void {
  let [s00, s01, s02, s03, s10, s11, s12, s13] = [0, 0, 0, 0, 0, 0, 0, 0];
  let [s20, s21, s22, s23, s30, s31, s32, s33] = [0, 0, 0, 0, 0, 0, 0, 0];
  for (let k = start, at = start * width + row, to = start * width + column; k < end; k++, at += width, to += width) {
    const w = weight ? (weight[k] as number) : 1;
    const a0 = w * (table[at] as number);
    const a1 = w * (table[at + 1] as number);
    const a2 = w * (table[at + 2] as number);
    const a3 = w * (table[at + 3] as number);
    const b0 = table[to] as number;
    const b1 = table[to + 1] as number;
    const b2 = table[to + 2] as number;
    const b3 = table[to + 3] as number;
    s00 += a0 * b0;
    s01 += a0 * b1;
    s02 += a0 * b2;
    s03 += a0 * b3;
    s10 += a1 * b0;
    s11 += a1 * b1;
    s12 += a1 * b2;
    s13 += a1 * b3;
    s20 += a2 * b0;
    s21 += a2 * b1;
    s22 += a2 * b2;
    s23 += a2 * b3;
    s30 += a3 * b0;
    s31 += a3 * b1;
    s32 += a3 * b2;
    s33 += a3 * b3;
  }
  const sums = [s00, s01, s02, s03, s10, s11, s12, s13, s20, s21, s22, s23, s30, s31, s32, s33];
  sums.forEach((sum, index) => {
    const at = (row + (index >> 2)) * width + column + (index & 3);
    target[at] = (target[at] as number) + factor * sum;
  });
}

/** Copies the lower triangle of a row-major square matrix to the upper, in place. */
export function mirrorLower(matrix: Float64Array, width: number): Float64Array {
  for (let row = 0; row < width; row++)
    for (let column = 0; column < row; column++) matrix[column * width + row] = matrix[row * width + column] as number;
  return matrix;
}

/** target_j += Σ_k weight[at + k] · x_kj over `length` rows x_k of a row-major table from row `first` on. */
export function addWeightedRows(
  target: Float64Array,
  table: Float64Array,
  width: number,
  first: number,
  length: number,
  weight: Float64Array,
  at: number,
): void {
  const whole = width - (width % 4);
  for (let start = 0; start < length; start += TILE) {
    const end = Math.min(length, start + TILE);
    for (let j = 0; j < whole; j += 4) addFour(target, table, width, first, start, end, weight, at, j);
    for (let j = whole; j < width; j++) {
      let sum = 0;
      for (let k = start, cell = (first + start) * width + j; k < end; k++, cell += width)
        sum += (weight[at + k] as number) * (table[cell] as number);
      target[j] = (target[j] as number) + sum;
    }
  }
}

/** Four columns from j on, so that each weight is loaded once for four sums that stay in registers. */
function addFour(
  target: Float64Array,
  table: Float64Array,
  width: number,
  first: number,
  start: number,
  end: number,
  weight: Float64Array,
  at: number,
  j: number,
): void {
  let [s0, s1, s2, s3] = [0, 0, 0, 0];
  for (let k = start, cell = (first + start) * width + j; k < end; k++, cell += width) {
    const w = weight[at + k] as number;
    s0 += w * (table[cell] as number);
    s1 += w * (table[cell + 1] as number);
    s2 += w * (table[cell + 2] as number);
    s3 += w * (table[cell + 3] as number);
  }
  target[j] = (target[j] as number) + s0;
  target[j + 1] = (target[j + 1] as number) + s1;
  target[j + 2] = (target[j + 2] as number) + s2;
  target[j + 3] = (target[j + 3] as number) + s3;
}

/**
 * The symmetric matrix of products with a column of ones before the others: `ones` holds Σ w and Σ w x_j, the lower
 * triangle of `products` Σ w x xᵀ.
 */
export function withIntercept(ones: Float64Array, products: Float64Array, width: number): Float64Array {
  const n = width + 1;
  const whole = new Float64Array(n * n);
  for (let row = 0; row < n; row++) {
    whole[row] = whole[row * n] = ones[row] as number;
    for (let column = 1; column <= row; column++)
      whole[row * n + column] = whole[column * n + row] = products[(row - 1) * width + column - 1] as number;
  }
  return whole;
}
