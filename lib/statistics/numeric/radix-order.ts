/** Keys are cut into two digits of at most this many bits, each dealt once. */
const MOST_BITS = 13;
/** Below this a comparison-free sort of any kind is quick enough without a table of digits. */
const FEW = 1024;

/** Whole numbers from `low` on, `span` of them at most. */
export interface WholeSpread {
  readonly low: number;
  readonly span: number;
}

export interface SortedParts {
  readonly values: Float64Array;
  /** Row numbers by part, then value; ties in their given order. */
  readonly order: Uint32Array;
}

/** The spread of `column` at `rows` (all when null) if its values are whole and few enough, in `parts` parts, for a radix sort. */
export function wholeSpread(column: Float64Array, rows: Uint32Array | null, parts: number): WholeSpread | null {
  const count = rows ? rows.length : column.length;
  if (count < FEW) return null;
  let [low, high] = [Infinity, -Infinity];
  for (let place = 0; place < count; place++) {
    const value = column[rows ? (rows[place] as number) : place] as number;
    if (value !== Math.floor(value)) return null;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  const span = high - low + 1;
  return span * parts <= 2 ** (2 * MOST_BITS) ? { low, span } : null;
}

/**
 * Sorts rows by part and value, both in one key, by two passes of a radix sort from the lower digit (Knuth, TAOCP
 * vol. 3 §5.2.5): times in whole miles or hours are ordered in half the time that dealing by size takes.
 * `codes` gives the part of each row, null for one part.
 */
export function radixOrder(
  column: Float64Array,
  rows: Uint32Array | null,
  codes: Int32Array | null,
  parts: number,
  { low, span }: WholeSpread,
): SortedParts {
  const count = rows ? rows.length : column.length;
  const bits = Math.ceil(Math.log2(Math.max(4, span * parts)) / 2);
  const mask = 2 ** bits - 1;
  const [lower, upper] = [new Uint32Array(mask + 2), new Uint32Array(mask + 2)];
  for (let place = 0; place < count; place++) {
    const row = rows ? (rows[place] as number) : place;
    const key = ((column[row] as number) - low + (codes ? (codes[row] as number) * span : 0)) | 0;
    const digit = (key & mask) + 1;
    lower[digit] = (lower[digit] as number) + 1;
    const next = (key >>> bits) + 1;
    upper[next] = (upper[next] as number) + 1;
  }
  accumulate(lower);
  accumulate(upper);
  // Key and row side by side: each is written once where the cache line is fetched once.
  const dealt = new Int32Array(2 * count);
  for (let place = 0; place < count; place++) {
    const row = rows ? (rows[place] as number) : place;
    const key = ((column[row] as number) - low + (codes ? (codes[row] as number) * span : 0)) | 0;
    const to = lower[key & mask] as number;
    lower[key & mask] = to + 1;
    dealt[2 * to] = key;
    dealt[2 * to + 1] = row;
  }
  const values = new Float64Array(count);
  const order = new Uint32Array(count);
  for (let from = 0; from < dealt.length; from += 2) {
    const key = dealt[from] as number;
    const to = upper[key >>> bits] as number;
    upper[key >>> bits] = to + 1;
    values[to] = key + low;
    order[to] = dealt[from + 1] as number;
  }
  if (parts > 1) takeOffParts(values, parts, low, span);
  return { values, order };
}

function accumulate(counts: Uint32Array): void {
  for (let digit = 1; digit < counts.length; digit++)
    counts[digit] = (counts[digit] as number) + (counts[digit - 1] as number);
}

/** Of a sorted key the part is taken off again, in place. */
function takeOffParts(values: Float64Array, parts: number, low: number, span: number): void {
  let place = 0;
  for (let part = 0; part < parts; part++) {
    const [base, end] = [part * span, (part + 1) * span + low];
    for (; place < values.length && (values[place] as number) < end; place++)
      values[place] = (values[place] as number) - base;
  }
}
