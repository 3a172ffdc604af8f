import type { CoxProblem } from './cox-problem.ts';
import { climb, move, type Climb, type Slope } from './cox-newton.ts';
import { cleanDirection, isMonotone } from './cox-separation.ts';

export interface CoxFit extends Climb {
  /** Sign of infinity of each coefficient, 0 for the finite ones. */
  readonly infinite: Int8Array;
  /** Coefficients that were estimated: all but one for each direction in which the likelihood is monotone. */
  readonly free: readonly number[];
}

/** Newton steps along a runaway direction: each lowers what is left to gain by a factor e. */
const AWAY = 40;
/** Beyond this the exponential of a linear predictor says nothing more. */
const FARTHEST = 300;

/**
 * Climbs to the maximum. Where the likelihood is monotone the coefficients concerned are sent far
 * enough for what is left to gain to vanish, one of them is held there, and the rest are estimated
 * in that limit, so that their values and errors are those of the limiting likelihood.
 */
export function fitCox(
  problem: CoxProblem,
  evaluate: (beta: Float64Array) => Slope,
  start: Float64Array,
  options: { readonly free?: readonly number[]; readonly maxIterations?: number; readonly first?: Slope } = {},
): CoxFit {
  const infinite = new Int8Array(problem.width);
  let free = options.free ?? Array.from({ length: problem.width }, (_, j) => j);
  let result = climb(evaluate, start, free, options.maxIterations, options.first);
  let iterations = result.iterations;
  while (result.runaway !== null && free.length > 0) {
    const direction = cleanDirection(result.runaway);
    if (!isMonotone(problem, direction)) break;
    const held = free.reduce((most, j) =>
      Math.abs(direction[j] as number) > Math.abs(direction[most] as number) ? j : most,
    );
    direction.forEach((value, j) => (infinite[j] = value === 0 ? (infinite[j] as number) : Math.sign(value)));
    free = free.filter((j) => j !== held);
    const size = Math.abs(result.runaway[held] as number);
    result = climb(
      evaluate,
      move(result.beta, direction, Math.min(AWAY * size, FARTHEST)),
      free,
      options.maxIterations,
    );
    iterations += result.iterations;
  }
  return { ...result, iterations, infinite, free };
}
