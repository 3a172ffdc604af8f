/** Shares of the readings at which the curve may bend (Harrell, Regression Modeling Strategies, §2.4.6). */
const shares = [0.05, 0.35, 0.65, 0.95];

/** Columns of a natural cubic curve over a value, by value: straight beyond the outer knots. */
export interface SmoothBasis {
  readonly knots: readonly number[];
  readonly at: (value: number) => number[];
}

/**
 * A natural (restricted) cubic spline: the value itself, then for each knot but the last two
 * (x−t)³₊ − (x−t′)³₊(t″−t)/(t″−t′) + (x−t″)³₊(t′−t)/(t″−t′), over (t″−t₁)². Rounded readings can
 * fall on one knot: fewer knots then, and with under three a straight line.
 */
export function smoothBasis(values: Float64Array): SmoothBasis {
  const sorted = values.slice().sort();
  const knots = [
    ...new Set(shares.map((share) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] as number)),
  ];
  if (knots.length < 3) return { knots: [], at: (value) => [value] };
  const [first, before, last] = [knots[0] as number, knots.at(-2) as number, knots.at(-1) as number];
  const cube = (x: number) => Math.max(x, 0) ** 3;
  const bend = (x: number, knot: number) =>
    (cube(x - knot) -
      (cube(x - before) * (last - knot)) / (last - before) +
      (cube(x - last) * (before - knot)) / (last - before)) /
    (last - first) ** 2;
  return { knots, at: (value) => [value, ...knots.slice(0, -2).map((knot) => bend(value, knot))] };
}
