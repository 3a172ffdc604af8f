import { climb, move, type Climb, type Slope } from './newton-climb.ts';
import { independentColumns, subMatrix } from './regression-result.ts';

/** A log-likelihood that may have its maximum at infinity. */
export interface Climbable {
  readonly width: number;
  readonly evaluate: (beta: Float64Array) => Slope;
  /** Whether the likelihood rises without end along a direction: proof of what a runaway step only suggests. */
  readonly isMonotone: (direction: Float64Array) => boolean;
}

export interface Top extends Climb {
  /** Sign of infinity of each coefficient, 0 for the finite ones. */
  readonly infinite: Int8Array;
  /** Coefficients estimated: all but one for each direction in which the likelihood is monotone, and `unknownOf`. */
  readonly free: readonly number[];
  /** Each direction in which the likelihood is monotone, its largest component ±1. */
  readonly directions: readonly Float64Array[];
}

export interface ClimbOptions {
  readonly free?: readonly number[];
  readonly maxIterations?: number;
  /** The evaluation at the start, where it is known. */
  readonly first?: Slope;
}

/** Newton steps along a runaway direction: each lowers what is left to gain by a factor e. */
const AWAY = 40;
/** Beyond this the exponential of a linear predictor says nothing more. */
const FARTHEST = 300;
/** Share of the largest component below which a component of a runaway step is taken for rounding. */
export const NEGLIGIBLE = 1e-3;

/**
 * Climbs to the maximum. Where the likelihood is monotone the coefficients concerned are sent far
 * enough for what is left to gain to vanish, one of them is held there, and the rest are estimated
 * in that limit, so that their values and errors are those of the limiting likelihood.
 */
export function climbToTop(
  { width, evaluate, isMonotone }: Climbable,
  start: Float64Array,
  options: ClimbOptions = {},
): Top {
  const infinite = new Int8Array(width);
  let free = options.free ?? Array.from({ length: width }, (_, j) => j);
  let result = climb(evaluate, start, free, options.maxIterations, options.first);
  let iterations = result.iterations;
  const directions: Float64Array[] = [];
  while (result.runaway !== null && free.length > 0) {
    const direction = cleanDirection(result.runaway);
    if (!isMonotone(direction)) break;
    directions.push(direction);
    const held = free.reduce((most, j) =>
      Math.abs(direction[j] as number) > Math.abs(direction[most] as number) ? j : most,
    );
    direction.forEach((value, j) => (infinite[j] = value === 0 ? (infinite[j] as number) : Math.sign(value)));
    const size = Math.abs(result.runaway[held] as number);
    const away = move(result.beta, direction, Math.min(AWAY * size, FARTHEST));
    const at = evaluate(away);
    free = informed(
      at,
      width,
      free.filter((j) => j !== held),
    );
    result = climb(evaluate, away, free, options.maxIterations, at);
    iterations += result.iterations;
  }
  return { ...result, iterations, infinite, free, directions };
}

/** Columns of which nothing is known: they differ only where the limit of a monotone likelihood leaves nothing. */
export const unknownOf = ({ infinite, free }: Pick<Top, 'infinite' | 'free'>): number[] =>
  Array.from(infinite.keys()).filter((j) => infinite[j] === 0 && !free.includes(j));

/** The columns of which something of their own can still be told. */
function informed(at: Slope, width: number, columns: readonly number[]): number[] {
  const { kept } = independentColumns(subMatrix(at.information(), width, columns), columns.length, 0);
  return kept.map((index) => columns[index] as number);
}

/** A runaway step as a direction: largest component ±1, negligible ones zero. */
function cleanDirection(step: Float64Array): Float64Array {
  const most = step.reduce((largest, value) => Math.max(largest, Math.abs(value)), 0);
  return step.map((value) => (Math.abs(value) < NEGLIGIBLE * most ? 0 : value / most));
}
