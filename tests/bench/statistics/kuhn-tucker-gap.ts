interface Spans {
  readonly lower: Float64Array;
  readonly upper: Float64Array;
}

/**
 * How much a curve of masses falls short of the maximum of the likelihood, at most and per life: with no late entry
 * max_j (1/n) Σ_i 1{j within i} / P_i − 1 (Gentleman & Geyer 1994, Biometrika 81:618), worked out from the masses
 * alone. It stands in for R's fit, which does not come to an end at this size.
 */
export function kuhnTuckerGap({ lower, upper }: Spans, at: Spans & { readonly mass: Float64Array }): number {
  const count = at.mass.length;
  const below = new Float64Array(count + 1);
  for (let j = 0; j < count; j++) below[j + 1] = (below[j] as number) + (at.mass[j] as number);
  const slope = new Float64Array(count + 1);
  for (let row = 0; row < lower.length; row++) {
    const [a, b] = [lower[row] as number, upper[row] as number];
    const from = first(count, (j) =>
      a === b ? (at.upper[j] as number) >= b : (at.lower[j] as number) >= a && !pointAt(at, j, a),
    );
    const to = first(count, (j) => (at.upper[j] as number) > b);
    const chance = (below[to] as number) - (below[from] as number);
    slope[from] = (slope[from] as number) + 1 / chance;
    slope[to] = (slope[to] as number) - 1 / chance;
  }
  let [sum, most] = [0, 0];
  for (let j = 0; j < count; j++) {
    sum += slope[j] as number;
    most = Math.max(most, sum / lower.length - 1);
  }
  return most;
}

/** An exact life at a is not within a span that is open there. */
const pointAt = ({ lower, upper }: Spans, j: number, a: number): boolean => lower[j] === a && upper[j] === a;

/** First of the places 0 to `count` from which on the condition holds. */
function first(count: number, holds: (place: number) => boolean): number {
  let [low, high] = [0, count];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}
