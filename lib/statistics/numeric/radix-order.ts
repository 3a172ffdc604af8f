/** Whole numbers from `low` on, `span` of them at most. */
export interface WholeSpread {
  readonly low: number;
  readonly span: number;
}

export interface SortedParts {
  readonly values: Float64Array;
  /** Row numbers by part, then value; ties in their given order. */
  readonly order: Uint32Array;
  /** Where each part's rows begin, and the number of rows at the end. */
  readonly start: Uint32Array;
  /** The mark of each of `order`; empty when none were given. */
  readonly marks: Uint8Array;
}

/** What is sorted: `rows` null means all, `codes` null one part. */
interface RadixColumns {
  readonly column: Float64Array;
  readonly rows: Uint32Array | null;
  readonly codes: Int32Array | null;
  readonly parts: number;
  /** A byte of each row that is carried along, so that whoever reads it in the new order need not fetch it. */
  readonly marks: Uint8Array | null;
}

/** Keys are cut into two digits of at most this many bits, each dealt once. */
const MOST_BITS = 13;
/** Below this a comparison-free sort of any kind is quick enough without a table of digits. */
const FEW = 1024;
/** A mark travels in the upper byte beside its row number. */
const ROW_BITS = 24;
const ROW_MASK = 2 ** ROW_BITS - 1;

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
 */
export function radixOrder(columns: RadixColumns, { low, span }: WholeSpread): SortedParts {
  const { column, rows, parts, marks } = columns;
  const count = rows ? rows.length : column.length;
  const bits = Math.ceil(Math.log2(Math.max(4, span * parts)) / 2);
  const carried = column.length <= ROW_MASK ? marks : null;
  const [lower, upper] = digitStarts(columns, low, span, bits);
  const pairs = dealByLower(columns, carried, low, span, bits, lower);
  const order = new Uint32Array(count);
  const values = new Float64Array(count);
  const placed = new Uint8Array(carried ? count : 0);
  if (carried) dealMarked(pairs, bits, low, upper, values, order, placed);
  else deal(pairs, bits, low, upper, values, order);
  const start = takeOffParts(values, parts, low, span);
  return { values, order, start, marks: marks && !carried ? fetchMarks(marks, order) : placed };
}

/** Marks in the order given. */
export function fetchMarks(marks: Uint8Array, order: Uint32Array): Uint8Array {
  const fetched = new Uint8Array(order.length);
  for (let place = 0; place < fetched.length; place++) fetched[place] = marks[order[place] as number] as number;
  return fetched;
}

/** Where the rows of each lower and each upper digit begin. */
function digitStarts({ column, rows, codes }: RadixColumns, low: number, span: number, bits: number) {
  const count = rows ? rows.length : column.length;
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
  return [lower, upper] as const;
}

function accumulate(counts: Uint32Array): void {
  for (let digit = 1; digit < counts.length; digit++)
    counts[digit] = (counts[digit] as number) + (counts[digit - 1] as number);
}

/** Key and row (with its mark) side by side: each is written once where the cache line is fetched once. */
function dealByLower(
  { column, rows, codes }: RadixColumns,
  marks: Uint8Array | null,
  low: number,
  span: number,
  bits: number,
  next: Uint32Array,
): Int32Array {
  const count = rows ? rows.length : column.length;
  const mask = 2 ** bits - 1;
  const pairs = new Int32Array(2 * count);
  for (let place = 0; place < count; place++) {
    const row = rows ? (rows[place] as number) : place;
    const key = ((column[row] as number) - low + (codes ? (codes[row] as number) * span : 0)) | 0;
    const to = next[key & mask] as number;
    next[key & mask] = to + 1;
    pairs[2 * to] = key;
    pairs[2 * to + 1] = marks ? row | ((marks[row] as number) << ROW_BITS) : row;
  }
  return pairs;
}

function deal(
  pairs: Int32Array,
  bits: number,
  low: number,
  next: Uint32Array,
  values: Float64Array,
  order: Uint32Array,
): void {
  for (let from = 0; from < pairs.length; from += 2) {
    const key = pairs[from] as number;
    const to = next[key >>> bits] as number;
    next[key >>> bits] = to + 1;
    values[to] = key + low;
    order[to] = pairs[from + 1] as number;
  }
}

function dealMarked(
  pairs: Int32Array,
  bits: number,
  low: number,
  next: Uint32Array,
  values: Float64Array,
  order: Uint32Array,
  marks: Uint8Array,
): void {
  for (let from = 0; from < pairs.length; from += 2) {
    const key = pairs[from] as number;
    const row = pairs[from + 1] as number;
    const to = next[key >>> bits] as number;
    next[key >>> bits] = to + 1;
    values[to] = key + low;
    order[to] = row & ROW_MASK;
    marks[to] = row >>> ROW_BITS;
  }
}

/** Of a sorted key the part is taken off again, in place; where each part's begin. */
function takeOffParts(values: Float64Array, parts: number, low: number, span: number): Uint32Array {
  const start = new Uint32Array(parts + 1);
  if (parts > 1)
    for (let part = 0, place = 0; part < parts; part++) {
      const [base, end] = [part * span, (part + 1) * span + low];
      for (; place < values.length && (values[place] as number) < end; place++)
        values[place] = (values[place] as number) - base;
      start[part + 1] = place;
    }
  start[parts] = values.length;
  return start;
}
