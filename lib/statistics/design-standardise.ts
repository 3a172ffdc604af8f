/** Rows taken together while all columns pass: few enough for the processor's nearest cache. */
const TILE = 256;

/**
 * Centres the columns of a row-major table at their weighted means and divides them by their ranges, in place; rows of
 * no weight do not count. Sums of squares then keep their digits whatever the units.
 */
export function standardise(table: Float64Array, width: number, weight: Float64Array) {
  const total = weight.reduce((sum, value) => sum + value, 0);
  const sums = { sum: new Float64Array(width), low: new Float64Array(width), high: new Float64Array(width) };
  sums.low.fill(Infinity);
  sums.high.fill(-Infinity);
  for (let first = 0; first < weight.length; first += TILE) {
    const end = Math.min(weight.length, first + TILE);
    for (let j = 0; j < width; j++) summarise(table, width, weight, first, end, j, sums);
  }
  const centre = sums.sum.map((sum) => (total > 0 ? sum / total : 0));
  const scale = centre.map((_, j) => {
    const [low, high] = [sums.low[j] as number, sums.high[j] as number];
    return high > low ? high - low : 1;
  });
  for (let at = 0; at < table.length; at += width)
    for (let j = 0; j < width; j++)
      table[at + j] = ((table[at + j] as number) - (centre[j] as number)) / (scale[j] as number);
  return { centre, scale };
}

function summarise(
  table: Float64Array,
  width: number,
  weight: Float64Array,
  first: number,
  end: number,
  j: number,
  sums: { readonly sum: Float64Array; readonly low: Float64Array; readonly high: Float64Array },
): void {
  let sum = sums.sum[j] as number;
  let low = sums.low[j] as number;
  let high = sums.high[j] as number;
  for (let k = first, at = first * width + j; k < end; k++, at += width) {
    const w = weight[k] as number;
    if (w === 0) continue;
    const value = table[at] as number;
    sum += w * value;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  sums.sum[j] = sum;
  sums.low[j] = low;
  sums.high[j] = high;
}

/** Moves the columns listed together, ascending, in place, so that no second table is held; gives the part that holds them. */
export function pickColumns(table: Float64Array, width: number, kept: readonly number[]): Float64Array {
  const columns = Int32Array.from(kept);
  let into = 0;
  for (let row = 0; row + width <= table.length && width > 0; row += width)
    for (let at = 0; at < columns.length; at++) table[into++] = table[row + (columns[at] as number)] as number;
  return table.subarray(0, into);
}
