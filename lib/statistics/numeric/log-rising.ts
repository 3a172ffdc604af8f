/**
 * log [Γ(shape + y) / Γ(shape) shapeʸ] = Σ_{j<y} log(1 + j / shape) with its first two derivatives by shape, at each of
 * some counts in ascending order. As a sum it keeps its digits however large the shape, where differences of gammaln
 * do not; it takes as many steps as the highest count.
 */
export function logRising(counts: ArrayLike<number>, shape: number) {
  const value = new Float64Array(counts.length);
  const slope = new Float64Array(counts.length);
  const bend = new Float64Array(counts.length);
  let [sum, first, second, j] = [0, 0, 0, 1];
  for (let k = 0; k < counts.length; k++) {
    for (; j < (counts[k] as number); j++) {
      const below = shape * (shape + j);
      sum += Math.log1p(j / shape);
      first -= j / below;
      second += ((j / below) * (2 * shape + j)) / below;
    }
    value[k] = sum;
    slope[k] = first;
    bend[k] = second;
  }
  return { value, slope, bend };
}
