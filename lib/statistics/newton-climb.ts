import { cholesky, choleskyFailed, solveCholesky, type CholeskyFactor } from './numeric/cholesky.ts';
import { subMatrix } from './regression-result.ts';

/** A function to be climbed, with its gradient and, when asked, the matrix that turns the gradient into a step. */
export interface Slope {
  readonly value: number;
  readonly score: Float64Array;
  /** Row-major, the full width; must be asked for before the next evaluation. */
  readonly information: () => Float64Array;
  /** Minus the second derivatives, where they are not the information: steps then go by them, errors by the information. */
  readonly curvature?: () => Float64Array;
}

export interface Climb {
  readonly beta: Float64Array;
  readonly value: number;
  /** At `beta`, or a last step of under 1e-10 before it. */
  readonly information: Float64Array;
  readonly iterations: number;
  readonly converged: boolean;
  /** Full-width step when the top seems to lie at infinity along it: nothing left to gain, yet a long way to go. */
  readonly runaway: Float64Array | null;
}

const SMALL_STEP = 1e-10;
/** Nearness of the top, as a share of the log-likelihood still to gain, at which steps that no longer shrink are rounding. */
const ROUNDING = 1e-13;
/** Coefficients are log ratios across a covariate's whole range: no step should change one by more than this. */
const LONGEST_STEP = 4;
/** Signature of a maximum at infinity: each Newton step stays near one while the gain falls by e each time. */
const RUNAWAY_GAIN = 1e-8;
const RUNAWAY_STEP = 0.2;
/** The information is kept while each step it gives is this much shorter than the one before. */
const CONTRACTION = 0.1;

/**
 * Newton's method with step halving over the coefficients listed in `free`; the others stay where
 * `start` has them. The information is worked out anew only when the old one no longer serves
 * (the chord method, Ortega & Rheinboldt 1970 §7.1), and always at the end.
 */
export function climb(
  evaluate: (beta: Float64Array) => Slope,
  start: Float64Array,
  free: readonly number[],
  maxIterations = 50,
  first?: Slope,
): Climb {
  let beta: Float64Array = start.slice();
  let at = first ?? evaluate(beta);
  let information = at.information();
  let factor = factorAt(at, information, free);
  let fresh = true;
  let step = stepFrom(factor, at.score, free);
  let before = Infinity;
  for (let iterations = 0; ; iterations++) {
    const end = (converged: boolean, runaway: Float64Array | null = null, to = beta): Climb => {
      return { beta: to, value: at.value, information, iterations, converged, runaway };
    };
    if (step === null) return end(false);
    const size = largest(step);
    const gain = free.reduce((sum, j) => sum + ((step as Float64Array)[j] as number) * (at.score[j] as number), 0);
    const floor = gain <= ROUNDING * (1 + Math.abs(at.value)) && size > before / 2;
    if (fresh && (size <= SMALL_STEP || floor)) return end(true, null, move(beta, step, 1));
    if (fresh && size > RUNAWAY_STEP && gain < RUNAWAY_GAIN) return end(false, step);
    if (iterations >= maxIterations) return end(false);
    if (size > SMALL_STEP) {
      const next = tryStep(evaluate, beta, at, step, Math.min(1, LONGEST_STEP / size));
      // Rounding can drown the gain a little above the smallest step; then this is as near as it gets.
      if (next === null && fresh) return end(gain < 1e3 * ROUNDING * (1 + Math.abs(at.value)));
      if (next === null) at = evaluate(beta);
      else [beta, at] = next;
      step = next && stepFrom(factor, at.score, free);
      fresh = false;
      before = size;
    }
    if (step !== null && size > SMALL_STEP && largest(step) > SMALL_STEP && largest(step) < CONTRACTION * size)
      continue;
    information = at.information();
    factor = factorAt(at, information, free);
    step = stepFrom(factor, at.score, free);
    fresh = true;
  }
}

/** The curvature may be anything away from the top; the information always climbs. */
function factorAt(at: Slope, information: Float64Array, free: readonly number[]): CholeskyFactor | null {
  return (at.curvature && factorOver(at.curvature(), free)) ?? factorOver(information, free);
}

function factorOver(information: Float64Array, free: readonly number[]): CholeskyFactor | null {
  const width = Math.round(Math.sqrt(information.length));
  const factor = cholesky(subMatrix(information, width, free), free.length, 1e-14);
  return choleskyFailed(factor) ? null : factor;
}

function stepFrom(factor: CholeskyFactor | null, score: Float64Array, free: readonly number[]): Float64Array | null {
  if (factor === null) return null;
  const solved = solveCholesky(
    factor,
    free.map((j) => score[j] as number),
  );
  const step = new Float64Array(score.length);
  free.forEach((j, index) => (step[j] = solved[index] as number));
  return step.every(Number.isFinite) ? step : null;
}

function tryStep(
  evaluate: (beta: Float64Array) => Slope,
  beta: Float64Array,
  at: Slope,
  step: Float64Array,
  longest: number,
): [Float64Array, Slope] | null {
  for (let scale = longest; scale > 1e-6 * longest; scale /= 2) {
    const to = move(beta, step, scale);
    const there = evaluate(to);
    if (there.value >= at.value - 1e-11 * (1 + Math.abs(at.value))) return [to, there];
  }
  return null;
}

export const move = (from: Float64Array, step: Float64Array, scale: number): Float64Array =>
  from.map((value, j) => value + scale * (step[j] as number));

const largest = (values: Float64Array): number => values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
