import { cholesky, choleskyFailed, solveCholesky } from './numeric/cholesky.ts';

/** A function to be climbed, with its gradient and the matrix that turns the gradient into a step. */
export interface Slope {
  readonly value: number;
  readonly score: Float64Array;
  /** Row-major, the full width. */
  readonly information: Float64Array;
}

export interface Climb<E extends Slope> {
  readonly beta: Float64Array;
  /** At `beta`, or a last step of under 1e-8 before it. */
  readonly at: E;
  readonly iterations: number;
  readonly converged: boolean;
  /** Full-width step when the top seems to lie at infinity along it: nothing left to gain, yet a long way to go. */
  readonly runaway: Float64Array | null;
}

const SMALL_STEP = 1e-8;
/** Coefficients are log ratios across a covariate's whole range: no step should change one by more than this. */
const LONGEST_STEP = 4;
/** Signature of a maximum at infinity: each Newton step stays near one while the gain falls by e each time. */
const RUNAWAY_GAIN = 1e-8;
const RUNAWAY_STEP = 0.2;

/**
 * Newton's method with step halving over the coefficients listed in `free`; the others stay where
 * `start` has them.
 */
export function climb<E extends Slope>(
  evaluate: (beta: Float64Array) => E,
  start: Float64Array,
  free: readonly number[],
  maxIterations = 50,
  first?: E,
): Climb<E> {
  let beta: Float64Array = start.slice();
  let at = first ?? evaluate(beta);
  for (let iterations = 0; ; iterations++) {
    const step = newtonStep(at, free);
    if (step === null) return { beta, at, iterations, converged: false, runaway: null };
    const size = largest(step);
    const gain = free.reduce((sum, j) => sum + (step[j] as number) * (at.score[j] as number), 0);
    if (size <= SMALL_STEP) return { beta: move(beta, step, 1), at, iterations, converged: true, runaway: null };
    if (size > RUNAWAY_STEP && gain < RUNAWAY_GAIN) return { beta, at, iterations, converged: false, runaway: step };
    if (iterations >= maxIterations) return { beta, at, iterations, converged: false, runaway: null };
    const next = tryStep(evaluate, beta, at, step, Math.min(1, LONGEST_STEP / size));
    // Rounding can drown the gain a little above the smallest step; then this is as near as it gets.
    if (next === null)
      return { beta, at, iterations, converged: gain < 1e-10 * (1 + Math.abs(at.value)), runaway: null };
    [beta, at] = next;
  }
}

function newtonStep({ score, information }: Slope, free: readonly number[]): Float64Array | null {
  const width = score.length;
  const matrix = new Float64Array(free.length * free.length);
  free.forEach((j, row) =>
    free.forEach((k, column) => (matrix[row * free.length + column] = information[j * width + k] as number)),
  );
  const factor = cholesky(matrix, free.length, 1e-14);
  if (choleskyFailed(factor)) return null;
  const solved = solveCholesky(
    factor,
    free.map((j) => score[j] as number),
  );
  const step = new Float64Array(width);
  free.forEach((j, index) => (step[j] = solved[index] as number));
  return step.every(Number.isFinite) ? step : null;
}

function tryStep<E extends Slope>(
  evaluate: (beta: Float64Array) => E,
  beta: Float64Array,
  at: E,
  step: Float64Array,
  longest: number,
): [Float64Array, E] | null {
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
