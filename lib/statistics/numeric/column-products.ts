/**
 * Σ_k weights[k] · x_j[k] · x_i[k] for every i ≥ j over `length` rows from `first` on, added to
 * `sums[j * stride + i]`. Columns lie one after another in `table`, `count` rows each. Four columns
 * are taken at once, so that each product is loaded once for four sums: this loop is most of what a
 * regression on continuous covariates does.
 */
export function addColumnProducts(
  table: Float64Array,
  count: number,
  width: number,
  weights: Float64Array,
  first: number,
  length: number,
  sums: Float64Array,
  stride: number,
): void {
  const weighed = new Float64Array(length);
  const four = new Float64Array(4);
  for (let j = 0; j < width; j++) {
    const column = j * count + first;
    for (let k = 0; k < length; k++) weighed[k] = (weights[k] as number) * (table[column + k] as number);
    let i = j;
    for (; i + 3 < width; i += 4) {
      fourProducts(weighed, table, i * count + first, count, length, four);
      for (let step = 0; step < 4; step++) {
        const at = j * stride + i + step;
        sums[at] = (sums[at] as number) + (four[step] as number);
      }
    }
    for (; i < width; i++) {
      const at = j * stride + i;
      sums[at] = (sums[at] as number) + innerProduct(weighed, table, i * count + first, length);
    }
  }
}

/** Σ_k a[k] · table[at + k]. */
export function innerProduct(a: Float64Array, table: Float64Array, at: number, length: number): number {
  let even = 0;
  let odd = 0;
  const pairs = length & ~1;
  for (let k = 0; k < pairs; k += 2) {
    even += (a[k] as number) * (table[at + k] as number);
    odd += (a[k + 1] as number) * (table[at + k + 1] as number);
  }
  if (pairs < length) even += (a[pairs] as number) * (table[at + pairs] as number);
  return even + odd;
}

function fourProducts(
  a: Float64Array,
  table: Float64Array,
  at: number,
  count: number,
  length: number,
  out: Float64Array,
): void {
  const [at1, at2, at3] = [at + count, at + 2 * count, at + 3 * count];
  let s0 = 0;
  let s1 = 0;
  let s2 = 0;
  let s3 = 0;
  for (let k = 0; k < length; k++) {
    const x = a[k] as number;
    s0 += x * (table[at + k] as number);
    s1 += x * (table[at1 + k] as number);
    s2 += x * (table[at2 + k] as number);
    s3 += x * (table[at3 + k] as number);
  }
  out[0] = s0;
  out[1] = s1;
  out[2] = s2;
  out[3] = s3;
}
