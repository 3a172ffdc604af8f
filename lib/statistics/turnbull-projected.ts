import { solveRidged } from './numeric/non-negative-quadratic.ts';
import {
  curvatureOver,
  curvatureTimes,
  pointAt,
  valueAt,
  type TurnbullPoint,
  type TurnbullRoom,
} from './turnbull-likelihood.ts';
import type { TurnbullProblem } from './turnbull-problem.ts';

/** Free increments up to here go through a dense factor; beyond, conjugate gradients. */
const DENSE = 400;

/** Room for the vectors of a step and of the conjugate gradients, each one longer than x; taken at the first step. */
interface ConjugateRoom {
  readonly of: () => StepVectors;
}

type StepVectors = Readonly<
  Record<'step' | 'target' | 'sums' | 'bent' | 'residual' | 'direction' | 'solution', Float64Array>
> & {
  /** Increments that take the joint step: as many as there are stand at its front. */
  readonly free: Uint32Array;
};

export function conjugateRoom({ last }: TurnbullProblem): ConjugateRoom {
  const vector = () => new Float64Array(last + 1);
  const take = () => ({
    ...{ step: vector(), target: vector(), sums: vector(), bent: vector() },
    ...{ residual: vector(), direction: vector(), solution: vector(), free: new Uint32Array(last) },
  });
  let taken: ReturnType<typeof take> | null = null;
  return { of: () => (taken ??= take()) };
}

/** One step of the projected Newton method on x ≥ 0 (Bertsekas 1982, SIAM J. Control 20:221), put in `room`; null at its end. */
export function projectedNewton(
  problem: TurnbullProblem,
  point: TurnbullPoint,
  room: TurnbullRoom,
  vectors: ConjugateRoom,
): TurnbullPoint | null {
  return projectedStep(problem, point, room, vectors) ?? coordinateStep(problem, point, room, vectors);
}

/** Increments that their own curvature sends to zero are sent there; the others take a joint Newton step. */
function projectedStep(
  problem: TurnbullProblem,
  point: TurnbullPoint,
  room: TurnbullRoom,
  vectors: ConjugateRoom,
): TurnbullPoint | null {
  const { x, first, second } = point;
  const { step, target, sums, bent, free: list } = vectors.of();
  step.fill(0);
  let count = 0;
  for (let j = 0; j < x.length; j++) {
    const alone = (x[j] as number) * (second[j] as number) + (first[j] as number);
    if (alone > 0) list[count++] = j;
    else step[j] = -(x[j] as number);
  }
  const free = list.subarray(0, count);
  target.set(first);
  if (free.length < x.length) {
    curvatureTimes(problem, point.curve, step, bent, sums);
    for (let j = 0; j < x.length; j++) target[j] = (target[j] as number) - (bent[j] as number);
  }
  if (free.length <= DENSE) {
    const listed = Array.from(free);
    const joint = denseStep(problem, point, listed, target);
    listed.forEach((j, k) => (step[j] = joint[k] as number));
  } else {
    gradientsStep(problem, point, free, vectors);
    const { solution } = vectors.of();
    for (let k = 0; k < count; k++) step[free[k] as number] = solution[free[k] as number] as number;
  }
  return searchLine(problem, point, step, room);
}

/** Each increment by its own curvature; a fallback where the joint step does not climb. */
function coordinateStep(
  problem: TurnbullProblem,
  point: TurnbullPoint,
  room: TurnbullRoom,
  vectors: ConjugateRoom,
): TurnbullPoint | null {
  const { step } = vectors.of();
  for (let j = 0; j < point.x.length; j++)
    step[j] = (point.first[j] as number) / Math.max(point.second[j] as number, 1e-300);
  return searchLine(problem, point, step, room);
}

function searchLine(
  problem: TurnbullProblem,
  point: TurnbullPoint,
  step: Float64Array,
  room: TurnbullRoom,
): TurnbullPoint | null {
  const { x } = room;
  for (let scale = 1; scale > 1e-9; scale /= 2) {
    for (let j = 0; j < x.length; j++) x[j] = Math.max(0, (point.x[j] as number) + scale * (step[j] as number));
    const value = valueAt(problem, room);
    let promised = 0;
    for (let j = 0; j < x.length; j++)
      promised += (point.first[j] as number) * ((x[j] as number) - (point.x[j] as number));
    const gain = value - point.value;
    if (gain >= 1e-4 * promised && gain > 0) return pointAt(problem, room);
    // At the top gains drown in rounding: a step that promises next to nothing is taken on trust once.
    if (
      scale === 1 &&
      promised >= 0 &&
      promised < 1e-12 * (1 + Math.abs(point.value)) &&
      gain > -1e-12 * (1 + Math.abs(point.value))
    )
      return pointAt(problem, room);
  }
  return null;
}

/** Solves with the free part of minus the Hessian. Where masses are not unique it is singular: a ridge picks one of the equal tops. */
function denseStep(
  problem: TurnbullProblem,
  point: TurnbullPoint,
  free: readonly number[],
  target: Float64Array,
): Float64Array {
  const matrix = curvatureOver(problem, point.curve, free);
  return solveRidged(
    matrix,
    free.length,
    Float64Array.from(free, (j) => target[j] as number),
  );
}

/**
 * Conjugate gradients scaled by the diagonal, stopped early while the climb is far from the top (Nocedal & Wright §7.1):
 * from the room's `target` to its `solution`, both over the free increments alone.
 */
function gradientsStep(
  problem: TurnbullProblem,
  { curve, second }: TurnbullPoint,
  free: Uint32Array,
  vectors: ConjugateRoom,
): void {
  const { target, sums, bent, residual, direction, solution } = vectors.of();
  solution.fill(0);
  direction.fill(0);
  let measure = 0;
  for (let k = 0; k < free.length; k++) {
    const j = free[k] as number;
    const rest = target[j] as number;
    residual[j] = rest;
    direction[j] = rest / ((second[j] as number) + 1e-300);
    measure += rest * direction[j];
  }
  const goal = measure * Math.min(0.01, measure / (1 + Math.abs(problem.total)));
  for (let iteration = 0; iteration < 200 && measure > Math.max(goal, 1e-26 * problem.total); iteration++) {
    curvatureTimes(problem, curve, direction, bent, sums);
    let along = 0;
    for (let k = 0; k < free.length; k++)
      along += (direction[free[k] as number] as number) * (bent[free[k] as number] as number);
    const length = measure / along;
    if (!Number.isFinite(length)) break;
    let next = 0;
    for (let k = 0; k < free.length; k++) {
      const j = free[k] as number;
      solution[j] = (solution[j] as number) + length * (direction[j] as number);
      const rest = (residual[j] as number) - length * (bent[j] as number);
      residual[j] = rest;
      next += (rest * rest) / ((second[j] as number) + 1e-300);
    }
    const keep = next / measure;
    for (let k = 0; k < free.length; k++) {
      const j = free[k] as number;
      direction[j] = (residual[j] as number) / ((second[j] as number) + 1e-300) + keep * (direction[j] as number);
    }
    measure = next;
  }
}
