import { cholesky, choleskyFailed, solveCholesky, type CholeskyFactor } from './cholesky.ts';

/** A log-likelihood with its derivatives at one point; `hessian` is row-major n × n, symmetric. */
export interface Evaluation {
  readonly value: number;
  readonly gradient: Float64Array;
  readonly hessian: Float64Array;
}

export interface Maximum {
  readonly parameters: Float64Array;
  readonly evaluation: Evaluation;
  /** Factor of minus the Hessian at the end, null when that is not positive definite. */
  readonly information: CholeskyFactor | null;
  readonly iterations: number;
  readonly converged: boolean;
  /** √(gᵀ I⁻¹ g) at the end: how far the top still is, in standard errors. */
  readonly distance: number;
}

export interface MaximiseOptions {
  /** Stop when the top is this near, in standard errors. */
  readonly tolerance?: number;
  readonly maxIterations?: number;
  /** Longest change of each parameter in one step; the whole step is shortened to keep to it. */
  readonly longestStep?: ArrayLike<number>;
  /** Whether a point is inside the domain; steps are halved until they are. */
  readonly inside?: (parameters: Float64Array) => boolean;
}

/**
 * Newton's method with step halving; where minus the Hessian is not positive definite its diagonal
 * is raised (Nocedal & Wright, Numerical Optimization 2nd ed., §3.4) until it is, so that every
 * step climbs. Convergence is judged by the Newton decrement, which does not depend on the units
 * of the parameters (Boyd & Vandenberghe, Convex Optimization, §9.5.1).
 */
export function maximise(
  evaluate: (parameters: Float64Array) => Evaluation,
  start: ArrayLike<number>,
  { tolerance = 1e-9, maxIterations = 100, longestStep, inside = () => true }: MaximiseOptions = {},
): Maximum {
  let parameters: Float64Array = Float64Array.from(start);
  let evaluation = evaluate(parameters);
  for (let iterations = 0; ; iterations++) {
    const { factor, raised } = factorInformation(evaluation);
    const step = solveCholesky(factor, evaluation.gradient);
    const distance = Math.sqrt(Math.max(0, dot(step, evaluation.gradient)));
    const information = raised ? null : factor;
    const end = (converged: boolean): Maximum => {
      return { parameters, evaluation, information, iterations, converged, distance };
    };
    if (!Number.isFinite(evaluation.value) || Number.isNaN(distance)) return end(false);
    if (distance <= tolerance) return end(!raised);
    if (iterations >= maxIterations) return end(false);
    const next = climb(evaluate, parameters, evaluation, step, shorten(step, longestStep), inside);
    // Rounding can leave nothing to gain a little above the tolerance: near enough counts, far does not.
    if (next === null) return end(!raised && distance < 1e-6);
    [parameters, evaluation] = next;
  }
}

function factorInformation({ gradient, hessian }: Evaluation): { factor: CholeskyFactor; raised: boolean } {
  const n = gradient.length;
  const information = hessian.map((value) => -value);
  let typical = 0;
  for (let k = 0; k < n; k++) typical = Math.max(typical, Math.abs(information[k * n + k] as number));
  if (!Number.isFinite(typical)) return { factor: identity(n), raised: true };
  const plain = cholesky(information, n, 1e-14);
  if (!choleskyFailed(plain)) return { factor: plain, raised: false };
  for (let raise = 1e-6; ; raise *= 10) {
    const lifted = information.slice();
    for (let k = 0; k < n; k++) {
      const at = k * n + k;
      lifted[at] = (lifted[at] as number) + raise * Math.max(Math.abs(lifted[at] as number), 1e-6 * typical, 1e-300);
    }
    const factor = cholesky(lifted, n, 1e-10);
    if (!choleskyFailed(factor)) return { factor, raised: true };
    if (raise > 1e12) return { factor: identity(n), raised: true };
  }
}

function shorten(step: Float64Array, longest: ArrayLike<number> | undefined): number {
  let scale = 1;
  if (longest) step.forEach((value, k) => (scale = Math.min(scale, (longest[k] as number) / Math.abs(value))));
  return scale;
}

function climb(
  evaluate: (parameters: Float64Array) => Evaluation,
  from: Float64Array,
  at: Evaluation,
  step: Float64Array,
  first: number,
  inside: (parameters: Float64Array) => boolean,
): [Float64Array, Evaluation] | null {
  const slope = dot(step, at.gradient);
  for (let scale = first; scale > 1e-10 * first; scale /= 2) {
    const to = from.map((value, k) => value + scale * (step[k] as number));
    if (!inside(to)) continue;
    const evaluation = evaluate(to);
    const gain = evaluation.value - at.value;
    if (gain >= 1e-4 * scale * slope && gain > 0) return [to, evaluation];
    // Near the top the gain drowns in rounding; there a smaller gradient is the better witness.
    const drowned = Math.abs(gain) <= 1e-13 * Math.abs(at.value) + 1e-13 && slope < 1e-4;
    if (drowned && norm(evaluation.gradient) < 0.5 * norm(at.gradient)) return [to, evaluation];
  }
  return null;
}

function identity(n: number): CholeskyFactor {
  const lower = new Float64Array(n * n);
  for (let k = 0; k < n; k++) lower[k * n + k] = 1;
  return { size: n, lower };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += (a[k] as number) * (b[k] as number);
  return sum;
}

const norm = (a: Float64Array): number => Math.sqrt(dot(a, a));
