/**
 * Centres the columns of a row-major table at their weighted means and divides them by their ranges, in place; rows of
 * no weight do not count. Sums of squares then keep their digits whatever the units.
 */
export function standardise(table: Float64Array, width: number, weight: Float64Array) {
  const count = weight.length;
  const total = weight.reduce((sum, value) => sum + value, 0);
  const centre = new Float64Array(width);
  const scale = new Float64Array(width).fill(1);
  for (let j = 0; j < width; j++) {
    let [sum, low, high] = [0, Infinity, -Infinity];
    for (let k = 0, at = j; k < count; k++, at += width) {
      if (weight[k] === 0) continue;
      const value = table[at] as number;
      sum += (weight[k] as number) * value;
      if (value < low) low = value;
      if (value > high) high = value;
    }
    const middle = (centre[j] = total > 0 ? sum / total : 0);
    if (high > low) scale[j] = high - low;
    const range = scale[j] as number;
    for (let k = 0, at = j; k < count; k++, at += width) table[at] = ((table[at] as number) - middle) / range;
  }
  return { centre, scale };
}

/** A row-major table with only the columns listed. */
export function pickColumns(table: Float64Array, width: number, kept: readonly number[]): Float64Array {
  const rows = width === 0 ? 0 : table.length / width;
  const slim = new Float64Array(rows * kept.length);
  for (let k = 0; k < rows; k++)
    kept.forEach((j, column) => (slim[k * kept.length + column] = table[k * width + j] as number));
  return slim;
}
