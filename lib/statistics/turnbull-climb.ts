import { minimiseNonNegative } from './numeric/non-negative-quadratic.ts';
import {
  curvatureOver,
  pointAt,
  turnbullRoom,
  valueAt,
  type TurnbullPoint,
  type TurnbullRoom,
} from './turnbull-likelihood.ts';
import type { TurnbullProblem } from './turnbull-problem.ts';
import { conjugateRoom, projectedNewton } from './turnbull-projected.ts';
import { selfConsistentStart, sparseStart } from './turnbull-start.ts';

export interface TurnbullClimb {
  readonly x: Float64Array;
  readonly iterations: number;
}

/** Support up to this size is fitted by exact quadratic steps on it. */
const MOST_SUPPORT = 500;

/**
 * Climbs to the maximum. The masses of purely interval-censored lives sit in few intervals, so the
 * support is grown from few, one interval between each two where the slope is steepest, and every
 * step solves the quadratic model on it exactly (Wang 2007, JRSS B 69:185). Many exact lives mean
 * much support; then all increments step at once. `enough` sees them after every step.
 */
export function climbTurnbull(
  problem: TurnbullProblem,
  enough: (x: Float64Array) => boolean,
  maxIterations: number,
): TurnbullClimb {
  const sparse = sparseStart(problem);
  const few = sparse.reduce((count, value) => count + (value > 0 ? 1 : 0), 0) <= MOST_SUPPORT / 2;
  const start = few ? sparse : selfConsistentStart(problem, 25);
  let [here, there] = [turnbullRoom(problem), turnbullRoom(problem)];
  // Nobody was watched in an interval that costs nothing: no mass, whatever the start says.
  for (let j = 0; j < start.length; j++) here.x[j] = problem.cost[j] === 0 ? 0 : (start[j] as number);
  let point = pointAt(problem, here);
  const matrices = new Matrices();
  const vectors = conjugateRoom(problem);
  for (let iterations = 0; ; iterations++) {
    if (enough(point.x) || iterations >= maxIterations) return { x: point.x, iterations };
    const support = grownSupport(point);
    const next =
      (support.length <= MOST_SUPPORT ? supportStep(problem, point, support, there, matrices) : null) ??
      projectedNewton(problem, point, there, vectors);
    if (next === null) return { x: point.x, iterations };
    point = next;
    [here, there] = [there, here];
  }
}

/** Two square matrices of the support's size, which grows from step to step: their room is taken anew only where it must be. */
class Matrices {
  private held = [new Float64Array(0), new Float64Array(0)];

  of(size: number): readonly [Float64Array, Float64Array] {
    if ((this.held[0] as Float64Array).length < size)
      this.held = [new Float64Array(Math.ceil(1.5 * size)), new Float64Array(Math.ceil(1.5 * size))];
    const [one, other] = this.held as [Float64Array, Float64Array];
    return [one.subarray(0, size), other.subarray(0, size)];
  }
}

/** Intervals with mass, and between each two of them the one where mass would help most. */
function grownSupport({ x, first }: TurnbullPoint): number[] {
  const support: number[] = [];
  let best = -1;
  for (let j = 0; j <= x.length; j++) {
    if (j === x.length || (x[j] as number) > 0) {
      if (best >= 0) support.push(best);
      if (j < x.length) support.push(j);
      best = -1;
    } else if ((first[j] as number) > (best < 0 ? 0 : (first[best] as number))) best = j;
  }
  return support;
}

/** To the top of the quadratic model over the support, non-negative, or part of the way there; the next point is put in `room`. */
function supportStep(
  problem: TurnbullProblem,
  point: TurnbullPoint,
  support: readonly number[],
  room: TurnbullRoom,
  matrices: Matrices,
): TurnbullPoint | null {
  const n = support.length;
  const [matrix, spare] = matrices.of(n * n);
  const curvature = curvatureOver(problem, point.curve, support, matrix);
  const now = Float64Array.from(support, (j) => point.x[j] as number);
  const linear = Float64Array.from(support, (j) => point.first[j] as number);
  for (let row = 0; row < n; row++)
    for (let column = 0; column < n; column++)
      linear[row] = (linear[row] as number) + (curvature[row * n + column] as number) * (now[column] as number);
  const goal = minimiseNonNegative(curvature, linear, now, spare);
  let promised = 0;
  support.forEach((j, k) => (promised += (point.first[j] as number) * ((goal[k] as number) - (now[k] as number))));
  if (!(promised > 0)) return null;
  const { x } = room;
  for (let scale = 1; scale > 1e-6; scale /= 2) {
    x.set(point.x);
    support.forEach(
      (j, k) =>
        (x[j] =
          scale === 1 ? (goal[k] as number) : (now[k] as number) + scale * ((goal[k] as number) - (now[k] as number))),
    );
    const gain = valueAt(problem, room) - point.value;
    const drowned = promised < 1e-11 * (1 + Math.abs(point.value)) && gain > -1e-12 * (1 + Math.abs(point.value));
    if (gain >= 1e-4 * scale * promised || (scale === 1 && drowned)) return pointAt(problem, room);
  }
  return null;
}
