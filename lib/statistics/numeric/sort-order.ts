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

/**
 * Row numbers in ascending order of `values`, ties in row order (stable); -0 equals 0, infinities
 * are allowed, NaN is not (callers check). With `rows`, only those rows are ordered, ties in their
 * given order. Nothing is mutated. Memory: about 30 bytes a row while it runs, 4 afterwards.
 * Outside check: the comparison sort of the language.
 */
export function sortOrder(values: Float64Array, rows?: Uint32Array): Uint32Array {
  const count = rows ? rows.length : values.length;
  const order = new Uint32Array(count);
  const sorted = new Float64Array(count);
  for (let place = 0; place < count; place++) {
    const row = rows ? (rows[place] as number) : place;
    order[place] = row;
    sorted[place] = values[row] as number;
  }
  sortTogether(sorted, order);
  return order;
}

/** Sorts `values` ascending in place, and `order` with them; stable. */
export function sortTogether(values: Float64Array, order: Uint32Array): void {
  if (!isAscending(values)) sortPairs({ values, order }, 0);
}

interface Pairs {
  readonly values: Float64Array;
  readonly order: Uint32Array;
}

function isAscending(values: Float64Array): boolean {
  for (let place = 1; place < values.length; place++)
    if ((values[place] as number) < (values[place - 1] as number)) return false;
  return true;
}

function sortPairs(pairs: Pairs, deals: number): void {
  if (pairs.order.length > FEW) {
    if (deals > MOST_DEALS) return comparisonSort(pairs);
    deal(pairs, deals);
  }
  insertionSort(pairs);
}

/** Deals pairs into slices of their range, in order, each crowded slice sorted; leaves them almost in order. */
function deal(pairs: Pairs, deals: number): void {
  const { values, order } = pairs;
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
  const dealtValues = new Float64Array(count);
  const dealtOrder = new Uint32Array(count);
  for (let place = 0; place < count; place++) {
    const slice = sliceOf[place] as number;
    const target = ends[slice] as number;
    ends[slice] = target + 1;
    dealtValues[target] = values[place] as number;
    dealtOrder[target] = order[place] as number;
  }
  values.set(dealtValues);
  order.set(dealtOrder);
  for (let slice = 0; slice < slices; slice++) {
    const start = slice === 0 ? 0 : (ends[slice - 1] as number);
    const end = ends[slice] as number;
    if (end - start <= FEW) continue;
    const crowd = { values: values.subarray(start, end), order: order.subarray(start, end) };
    // Equal values (many lives ended at one round mileage) are in order as they lie.
    if (!isAscending(crowd.values)) sortPairs(crowd, deals + 1);
  }
}

/** Quick where the pairs are nearly in order. */
function insertionSort({ values, order }: Pairs): void {
  for (let place = 1; place < order.length; place++) {
    const value = values[place] as number;
    if (!((values[place - 1] as number) > value)) continue;
    const row = order[place] as number;
    let gap = place;
    while (gap > 0 && (values[gap - 1] as number) > value) {
      values[gap] = values[gap - 1] as number;
      order[gap] = order[gap - 1] as number;
      gap--;
    }
    values[gap] = value;
    order[gap] = row;
  }
}

function comparisonSort({ values, order }: Pairs): void {
  const places = Uint32Array.from(values.keys()).sort((a, b) => {
    const [left, right] = [values[a] as number, values[b] as number];
    return left < right ? -1 : left > right ? 1 : a - b;
  });
  const [oldValues, oldOrder] = [values.slice(), order.slice()];
  places.forEach((place, target) => {
    values[target] = oldValues[place] as number;
    order[target] = oldOrder[place] as number;
  });
}
