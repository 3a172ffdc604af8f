/**
 * uᵀ V⁻ u for a positive semidefinite V (row-major n × n) and a vector u in its column space, with the
 * rank of V: the chi-square statistic of scores that sum to zero, or that have groups without information.
 * Source: Cholesky with diagonal pivoting (Higham, Accuracy and Stability §10.3) on V scaled to unit
 * diagonal; a pivot below `tolerance` of that diagonal ends the rank.
 */
export function quadraticForm(
  matrix: ArrayLike<number>,
  vector: ArrayLike<number>,
  tolerance = 1e-10,
): { value: number; rank: number } {
  const n = vector.length;
  const scale = Float64Array.from({ length: n }, (_, k) => Math.sqrt(Math.max(0, matrix[k * n + k] as number)));
  const used = Array.from(scale.keys()).filter((k) => (scale[k] as number) > 0);
  // What is left of the scaled matrix and vector after each pivot (an outer-product Cholesky).
  const rest = used.map((k) =>
    used.map((l) => (matrix[k * n + l] as number) / ((scale[k] as number) * (scale[l] as number))),
  );
  const left = used.map((k) => (vector[k] as number) / (scale[k] as number));
  const open = new Set(used.keys());
  let value = 0;
  let rank = 0;
  while (open.size > 0) {
    const pivot = [...open].reduce((best, k) => ((rest[k]?.[k] ?? 0) > (rest[best]?.[best] ?? 0) ? k : best));
    const row = rest[pivot] as number[];
    const size = row[pivot] as number;
    if (!(size > tolerance)) break;
    open.delete(pivot);
    const step = (left[pivot] as number) / size;
    value += step * (left[pivot] as number);
    rank++;
    for (const k of open) {
      const factor = (row[k] as number) / size;
      left[k] = (left[k] as number) - factor * (left[pivot] as number);
      const target = rest[k] as number[];
      for (const l of open) target[l] = (target[l] as number) - factor * (row[l] as number);
    }
  }
  return { value, rank };
}
