import { solveRidged } from './numeric/non-negative-quadratic.ts';
import { curvatureOver, curvatureTimes, pointAt, valueAt, type TurnbullPoint } from './turnbull-likelihood.ts';
import type { TurnbullProblem } from './turnbull-problem.ts';

/** Free increments up to here go through a dense factor; beyond, conjugate gradients. */
const DENSE = 400;

/** One step of the projected Newton method on x ≥ 0 (Bertsekas 1982, SIAM J. Control 20:221); null at its end. */
export function projectedNewton(problem: TurnbullProblem, point: TurnbullPoint): TurnbullPoint | null {
  return projectedStep(problem, point) ?? coordinateStep(problem, point);
}

/** Increments that their own curvature sends to zero are sent there; the others take a joint Newton step. */
function projectedStep(problem: TurnbullProblem, point: TurnbullPoint): TurnbullPoint | null {
  const { x, first, second } = point;
  const step = new Float64Array(x.length);
  const free: number[] = [];
  for (let j = 0; j < x.length; j++) {
    const alone = (x[j] as number) * (second[j] as number) + (first[j] as number);
    if (alone > 0) free.push(j);
    else step[j] = -(x[j] as number);
  }
  const target = free.length === x.length ? first : plus(first, curvatureTimes(problem, point.curve, step), -1);
  const joint =
    free.length <= DENSE ? denseStep(problem, point, free, target) : gradientsStep(problem, point, free, target);
  free.forEach((j, k) => (step[j] = joint[k] as number));
  return searchLine(problem, point, step);
}

/** Each increment by its own curvature; a fallback where the joint step does not climb. */
function coordinateStep(problem: TurnbullProblem, point: TurnbullPoint): TurnbullPoint | null {
  const step = point.first.map((slope, j) => slope / Math.max(point.second[j] as number, 1e-300));
  return searchLine(problem, point, step);
}

function searchLine(problem: TurnbullProblem, point: TurnbullPoint, step: Float64Array): TurnbullPoint | null {
  const sums = new Float64Array(problem.last + 1);
  const at = (scale: number) => point.x.map((value, j) => Math.max(0, value + scale * (step[j] as number)));
  for (let scale = 1; scale > 1e-9; scale /= 2) {
    const x = at(scale);
    const value = valueAt(problem, x, sums);
    let promised = 0;
    for (let j = 0; j < x.length; j++)
      promised += (point.first[j] as number) * ((x[j] as number) - (point.x[j] as number));
    const gain = value - point.value;
    if (gain >= 1e-4 * promised && gain > 0) return pointAt(problem, x);
    // At the top gains drown in rounding: a step that promises next to nothing is taken on trust once.
    if (
      scale === 1 &&
      promised >= 0 &&
      promised < 1e-12 * (1 + Math.abs(point.value)) &&
      gain > -1e-12 * (1 + Math.abs(point.value))
    )
      return pointAt(problem, x);
  }
  return null;
}

const plus = (a: Float64Array, b: Float64Array, factor: number): Float64Array =>
  a.map((value, j) => value + factor * (b[j] as number));

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

/** Conjugate gradients scaled by the diagonal, stopped early while the climb is far from the top (Nocedal & Wright §7.1). */
function gradientsStep(
  problem: TurnbullProblem,
  point: TurnbullPoint,
  free: readonly number[],
  target: Float64Array,
): Float64Array {
  const inFree = new Uint8Array(point.x.length);
  for (const j of free) inFree[j] = 1;
  const mask = (v: Float64Array) => v.map((value, j) => (inFree[j] ? value : 0));
  const scaled = (v: Float64Array) =>
    v.map((value, j) => (inFree[j] ? value / ((point.second[j] as number) + 1e-300) : 0));
  const dot = (a: Float64Array, b: Float64Array) => a.reduce((sum, value, j) => sum + value * (b[j] as number), 0);
  let residual: Float64Array = mask(target);
  let preconditioned: Float64Array = scaled(residual);
  let direction: Float64Array = preconditioned;
  let measure = dot(residual, preconditioned);
  const goal = measure * Math.min(0.01, measure / (1 + Math.abs(problem.total)));
  let solution: Float64Array = new Float64Array(point.x.length);
  for (let iteration = 0; iteration < 200 && measure > Math.max(goal, 1e-26 * problem.total); iteration++) {
    const bent = mask(curvatureTimes(problem, point.curve, direction));
    const length = measure / dot(direction, bent);
    if (!Number.isFinite(length)) break;
    solution = plus(solution, direction, length);
    residual = plus(residual, bent, -length);
    preconditioned = scaled(residual);
    const next = dot(residual, preconditioned);
    direction = plus(preconditioned, direction, next / measure);
    measure = next;
  }
  return Float64Array.from(free, (j) => solution[j] as number);
}
