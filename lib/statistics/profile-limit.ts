import { findRoot } from './numeric/find-root.ts';
import { climbToTop, type Climbable } from './climb-to-top.ts';

/** Log ratios across a covariate's range beyond which a profile limit is taken to be at infinity. */
const FARTHEST = 60;

/** The top of a likelihood, and where to start looking for a limit. */
export interface Peak {
  readonly value: number;
  /** Coefficients to start the other columns from; for the column itself, a point to search outwards from. */
  readonly start: Float64Array;
}

/**
 * Profile-likelihood limit of one coefficient (scaled): where the likelihood, maximised over the
 * other coefficients, has dropped by half the squared normal quantile `z` below its top
 * (Venzon & Moolgavkar 1988, Applied Statistics 37:87; here found by bracketing).
 * `side` −1 lower, +1 upper. ±Infinity where the likelihood never drops that far.
 */
export function profileLimit(
  climbable: Climbable,
  peak: Peak,
  term: number,
  side: -1 | 1,
  z: number,
  firstStep: number,
): number {
  const free = Array.from({ length: climbable.width }, (_, j) => j).filter((j) => j !== term);
  let warm = peak.start;
  // Far out a value may depend on where the climb began: one answer a place keeps a bracket a bracket.
  const known = new Map<number, number>();
  const excess = (value: number): number => {
    const before = known.get(value);
    if (before !== undefined) return before;
    const start = warm.slice();
    start[term] = value;
    const { beta, value: reached, infinite } = climbToTop(climbable, start, { free });
    if (infinite.every((sign) => sign === 0)) warm = beta;
    const found = Math.sqrt(Math.max(0, 2 * (peak.value - reached))) - z;
    known.set(value, found);
    return found;
  };
  let near = peak.start[term] as number;
  // Outwards from a point inside the limits; inwards, where the top is at infinity, from one outside.
  const outwards = excess(near) < 0;
  const direction = outwards ? side : -side;
  for (let step = firstStep, far = near + direction * step; ; step *= 1.5, far += direction * step) {
    if (excess(far) >= 0 === outwards) return findRoot(excess, near, far);
    if (Math.abs(far) > FARTHEST) return direction * Infinity;
    near = far;
  }
}
