/**
 * The order in which values ascend, found once and shared by whoever needs it. A distribution sort
 * (Knuth, TAOCP vol. 3 §5.2.1 and 5.2.5): rows are dealt into equal slices of the range, the slices of
 * a long column again into slices of their own (small enough by then for the processor's cache), and
 * what is left out of order is insertion-sorted. Linear in the rows for the times of real lives; a
 * range so uneven that dealing hardly divides it is left to the language's own comparison sort.
 */

/** Longer columns are dealt into this many slices first. */
const FIRST_SLICES = 1024;
const LONG = 2 ** 18;
/** Up to here an insertion sort beats dealing. */
const FEW = 32;
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
  if (isAscending(values, 0, values.length)) return;
  if (values.length <= FEW) insert(values, order, 0, values.length);
  else new Dealer(values, order).sort(0, values.length, 0);
}

function isAscending(values: Float64Array, start: number, end: number): boolean {
  for (let place = start + 1; place < end; place++)
    if ((values[place] as number) < (values[place - 1] as number)) return false;
  return true;
}

/** Quick where a stretch is nearly in order. */
function insert(values: Float64Array, order: Uint32Array, start: number, end: number): void {
  for (let place = start + 1; place < end; place++) {
    const value = values[place] as number;
    if (!((values[place - 1] as number) > value)) continue;
    const row = order[place] as number;
    let gap = place;
    while (gap > start && (values[gap - 1] as number) > value) {
      values[gap] = values[gap - 1] as number;
      order[gap] = order[gap - 1] as number;
      gap--;
    }
    values[gap] = value;
    order[gap] = row;
  }
}

/** Sorts stretches of values and order in place, by way of spare arrays of the same length. */
class Dealer {
  readonly spareValues: Float64Array;
  readonly spareOrder: Uint32Array;
  readonly sliceOf: Uint32Array;
  /** Where the slices of a deal end: one array a depth, since a deal outlives the deals of its slices. */
  readonly ends: Uint32Array[] = [];

  constructor(
    readonly values: Float64Array,
    readonly order: Uint32Array,
  ) {
    this.spareValues = new Float64Array(values.length);
    this.spareOrder = new Uint32Array(values.length);
    this.sliceOf = new Uint32Array(values.length);
  }

  sort(start: number, end: number, depth: number): void {
    if (end - start > FEW) {
      if (depth > MOST_DEALS) {
        this.compare(start, end);
        return;
      }
      const slices = depth === 0 && end - start > LONG ? FIRST_SLICES : end - start;
      const ends = this.deal(start, end, slices, this.endsAt(depth, slices));
      let from = start;
      for (let slice = 0; slice < slices; slice++) {
        const to = start + (ends[slice] as number);
        // Equal values (many lives ended at one round mileage) are in order as they lie.
        if (to - from > FEW && !isAscending(this.values, from, to)) this.sort(from, to, depth + 1);
        from = to;
      }
    }
    insert(this.values, this.order, start, end);
  }

  endsAt(depth: number, slices: number): Uint32Array {
    let ends = this.ends[depth];
    if (!ends || ends.length < slices + 1) ends = this.ends[depth] = new Uint32Array(slices + 1);
    return ends.fill(0, 0, slices + 1);
  }

  /** Deals a stretch into slices of its range, in order, and says where each ends, counted from `start`. */
  deal(start: number, end: number, slices: number, ends: Uint32Array): Uint32Array {
    const { values, order, spareValues, spareOrder, sliceOf } = this;
    let smallest = Infinity;
    let largest = -Infinity;
    for (let place = start; place < end; place++) {
      const value = values[place] as number;
      if (value < smallest) smallest = value;
      if (value > largest) largest = value;
    }
    // Subtraction and multiplication round monotonically, so slices never come out of order.
    const perUnit = smallest < largest ? Math.min((slices - 1) / (largest - smallest), Number.MAX_VALUE) : 0;
    for (let place = start; place < end; place++) {
      const slice = (((values[place] as number) - smallest) * perUnit) | 0;
      sliceOf[place] = slice;
      ends[slice + 1] = (ends[slice + 1] as number) + 1;
    }
    for (let slice = 1; slice <= slices; slice++) ends[slice] = (ends[slice] as number) + (ends[slice - 1] as number);
    for (let place = start; place < end; place++) {
      const slice = sliceOf[place] as number;
      const target = ends[slice] as number;
      ends[slice] = target + 1;
      spareValues[target] = values[place] as number;
      spareOrder[target] = order[place] as number;
    }
    for (let place = start; place < end; place++) {
      values[place] = spareValues[place - start] as number;
      order[place] = spareOrder[place - start] as number;
    }
    return ends;
  }

  compare(start: number, end: number): void {
    const [values, order] = [this.values.slice(start, end), this.order.slice(start, end)];
    const places = Uint32Array.from(values.keys()).sort((a, b) => {
      const [left, right] = [values[a] as number, values[b] as number];
      return left < right ? -1 : left > right ? 1 : a - b;
    });
    places.forEach((place, step) => {
      this.values[start + step] = values[place] as number;
      this.order[start + step] = order[place] as number;
    });
  }
}
