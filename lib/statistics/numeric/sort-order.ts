/**
 * The order in which values ascend, found once and shared by whoever needs it. A distribution sort
 * (Knuth, TAOCP vol. 3 §5.2.1 and 5.2.5): rows are dealt into equal slices of the range, a few to a
 * slice, and insertion-sorted; a crowded slice is dealt again over its own range. Linear in the rows
 * for the times of real lives; a range so uneven that dealing hardly divides it is left to the
 * language's own comparison sort.
 */

/** One slice a row on average: lives crowd at the short end, so many slices hold several, many none. */
const MOST_SLICES = 2 ** 19;
/** Up to here an insertion sort beats dealing. */
const FEW = 64;
/** Times that need more deals than this are adversarial. */
const MOST_DEALS = 6;

/** Values in ascending order beside the rows they came from. */
export interface SortedValues {
  readonly sorted: Float64Array;
  readonly order: Uint32Array;
}

/**
 * Row numbers in ascending order of `values`, ties in row order (stable); -0 equals 0, infinities
 * are allowed, NaN is not (callers check). With `rows`, only those rows are ordered, ties in their
 * given order. Nothing is mutated. Memory: about 30 bytes a row while it runs, 4 afterwards.
 * Outside check: the comparison sort of the language.
 */
export function sortOrder(values: Float64Array, rows?: Uint32Array): Uint32Array {
  return sortValues(values, rows).order;
}

/** As {@link sortOrder}, with the values themselves in that order. */
export function sortValues(values: Float64Array, rows?: Uint32Array): SortedValues {
  const sorted = rows ? Float64Array.from(rows, (row) => values[row] as number) : values;
  const order = rows ?? rowNumbers(values.length);
  if (isAscending(sorted) || sorted.length <= FEW) {
    const pairs = { sorted: sorted.slice(), order: order.slice() };
    insertionSort(pairs);
    return pairs;
  }
  return sortPairs({ sorted, order }, 0);
}

function rowNumbers(length: number): Uint32Array {
  const order = new Uint32Array(length);
  for (let row = 0; row < length; row++) order[row] = row;
  return order;
}

function isAscending(values: Float64Array): boolean {
  for (let place = 1; place < values.length; place++)
    if ((values[place] as number) < (values[place - 1] as number)) return false;
  return true;
}

/** A sorted copy of more than a few pairs. */
function sortPairs(pairs: SortedValues, deals: number): SortedValues {
  if (deals > MOST_DEALS) return comparisonSort(pairs);
  const dealt = deal(pairs, deals);
  insertionSort(dealt);
  return dealt;
}

/** Deals pairs into slices of their range, in order, each crowded slice sorted; ends almost in order. */
function deal({ sorted: values, order }: SortedValues, deals: number): SortedValues {
  const count = order.length;
  let smallest = Infinity;
  let largest = -Infinity;
  for (let place = 0; place < count; place++) {
    const value = values[place] as number;
    if (value < smallest) smallest = value;
    if (value > largest) largest = value;
  }
  const slices = Math.min(MOST_SLICES, count);
  // Subtraction and multiplication round monotonically, so slices never come out of order.
  const perUnit = smallest < largest ? Math.min((slices - 1) / (largest - smallest), Number.MAX_VALUE) : 0;
  const sliceOf = new Uint32Array(count);
  const ends = new Uint32Array(slices + 1);
  for (let place = 0; place < count; place++) {
    const slice = (((values[place] as number) - smallest) * perUnit) | 0;
    sliceOf[place] = slice;
    ends[slice + 1] = (ends[slice + 1] as number) + 1;
  }
  for (let slice = 1; slice <= slices; slice++) ends[slice] = (ends[slice] as number) + (ends[slice - 1] as number);
  const dealt = { sorted: new Float64Array(count), order: new Uint32Array(count) };
  for (let place = 0; place < count; place++) {
    const slice = sliceOf[place] as number;
    const target = ends[slice] as number;
    ends[slice] = target + 1;
    dealt.sorted[target] = values[place] as number;
    dealt.order[target] = order[place] as number;
  }
  for (let slice = 0; slice < slices; slice++) {
    const start = slice === 0 ? 0 : (ends[slice - 1] as number);
    const end = ends[slice] as number;
    // Equal values (a lot of replacements at one round mileage) are in order as they lie.
    if (end - start > FEW && !isAscending(dealt.sorted.subarray(start, end))) sortSlice(dealt, start, end, deals);
  }
  return dealt;
}

function sortSlice(pairs: SortedValues, start: number, end: number, deals: number): void {
  const slice = { sorted: pairs.sorted.subarray(start, end), order: pairs.order.subarray(start, end) };
  const result = sortPairs(slice, deals + 1);
  slice.sorted.set(result.sorted);
  slice.order.set(result.order);
}

/** In place; quick where the pairs are nearly in order. */
function insertionSort({ sorted, order }: SortedValues): void {
  for (let place = 1; place < order.length; place++) {
    const value = sorted[place] as number;
    if (!((sorted[place - 1] as number) > value)) continue;
    const row = order[place] as number;
    let gap = place;
    while (gap > 0 && (sorted[gap - 1] as number) > value) {
      sorted[gap] = sorted[gap - 1] as number;
      order[gap] = order[gap - 1] as number;
      gap--;
    }
    sorted[gap] = value;
    order[gap] = row;
  }
}

function comparisonSort({ sorted, order }: SortedValues): SortedValues {
  const places = Uint32Array.from(sorted.keys()).sort((a, b) => {
    const [left, right] = [sorted[a] as number, sorted[b] as number];
    return left < right ? -1 : left > right ? 1 : a - b;
  });
  return {
    sorted: Float64Array.from(places, (place) => sorted[place] as number),
    order: Uint32Array.from(places, (place) => order[place] as number),
  };
}
