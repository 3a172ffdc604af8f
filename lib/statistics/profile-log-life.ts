import { logLifeLikelihood } from './log-life-likelihood.ts';
import type { LogLifeDistribution } from './log-life-distribution.ts';
import type { LifeRows } from './life-rows.ts';
import { maximise, type Evaluation, type Maximum } from './numeric/maximise.ts';
import { standardNormalQuantile } from './numeric/normal.ts';

export interface Limits {
  readonly lower: number;
  readonly upper: number;
}

/**
 * Likelihood-ratio limits (Meeker & Escobar §8.2.2–8.3): all values whose profile likelihood lies
 * within χ²₁(level) / 2 of the top. Each profile point is a maximum in one free parameter.
 */
export interface LogLifeProfile {
  /** Limits of α (1 / spread); α must be free. */
  alpha(): Limits;
  /** Limits of log life (less logUnit) at standardised quantile q. */
  logLife(q: number): Limits;
  /** Limits of z = α y − γ at log life y (less logUnit). */
  standardised(y: number): Limits;
}

export function profileLogLife(
  rows: LifeRows,
  distribution: LogLifeDistribution,
  top: Maximum,
  level: number,
): LogLifeProfile {
  const { fixedAlpha, terms } = distribution;
  const gamma = top.parameters[0] as number;
  const alpha = fixedAlpha ?? (top.parameters[1] as number);
  const reach = standardNormalQuantile(0.5 + level / 2);
  const full = logLifeLikelihood(rows, terms, null, { fixedAlpha });
  /** Signed root of the likelihood ratio, nearly straight in the value held. */
  const root = (value: number) => Math.sqrt(2 * Math.max(0, top.evaluation.value - value));
  let [lastLocation, lastAlpha] = [gamma / alpha, alpha];

  const atAlpha = (fixed: number) => {
    const evaluate = logLifeLikelihood(rows, terms, null, { fixedAlpha: fixed });
    const held = maximise(evaluate, [lastLocation * fixed]);
    lastLocation = (held.parameters[0] as number) / fixed;
    return root(held.evaluation.value);
  };
  // With z = α (y − at) + z0 held at one point, only α is left.
  const through = (at: number, z0: number) => {
    if (fixedAlpha !== null) return root(full(Float64Array.of(fixedAlpha * at - z0)).value);
    const along = (theta: Float64Array) => alongLine(full, theta[0] as number, at, z0);
    const held = maximise(along, [lastAlpha], { inside: (theta) => (theta[0] as number) > 0 });
    lastAlpha = held.parameters[0] as number;
    return root(held.evaluation.value);
  };
  const limits = (held: (x: number) => number, from: number, step: number): Limits => {
    const towards = (sign: number) => {
      [lastLocation, lastAlpha] = [gamma / alpha, alpha];
      return from + sign * distanceTo(reach, (distance) => held(from + sign * distance), step);
    };
    return { lower: towards(-1), upper: towards(1) };
  };
  return {
    alpha: () => {
      const { lower, upper } = limits((logAlpha) => atAlpha(Math.exp(logAlpha)), Math.log(alpha), 0.05);
      return { lower: Math.exp(lower), upper: Math.exp(upper) };
    },
    logLife: (q) => limits((at) => through(at, q), (gamma + q) / alpha, 0.05 / alpha),
    standardised: (y) => limits((z) => through(y, z), alpha * y - gamma, 0.05),
  };
}

/**
 * Distance at which `root`, zero at zero and rising, reaches `target`; Infinity where it never
 * does. Steps by the secant from zero until the target lies between two points, then by regula falsi.
 */
function distanceTo(target: number, root: (distance: number) => number, firstStep: number): number {
  let [near, atNear, far] = [0, -target, firstStep];
  let atFar = root(far) - target;
  for (let step = 0; atFar < 0; step++) {
    if (step === 30) return Infinity;
    const straight = (far * target) / Math.max(atFar + target, 1e-3 * target);
    [near, atNear, far] = [far, atFar, Math.min(Math.max(straight * 1.05, far * 1.5), far * 8)];
    atFar = root(far) - target;
  }
  if (Number.isNaN(atFar)) return Infinity;
  for (let step = 0; step < 100 && far - near > 1e-10 * far; step++) {
    const secant = near - (atNear * (far - near)) / (atFar - atNear);
    const at = step % 4 === 3 ? (near + far) / 2 : Math.min(Math.max(secant, near + 1e-11 * far), far - 1e-11 * far);
    const value = root(at) - target;
    if (Math.abs(value) < 1e-11 * target) return at;
    if (value < 0) [near, atNear] = [at, value];
    else [far, atFar] = [at, value];
  }
  return (near + far) / 2;
}

function alongLine(full: (theta: Float64Array) => Evaluation, alpha: number, at: number, z0: number): Evaluation {
  const { value, gradient, hessian } = full(Float64Array.of(alpha * at - z0, alpha));
  const [g0, g1] = gradient as unknown as [number, number];
  const [h00, h01, , h11] = hessian as unknown as [number, number, number, number];
  return {
    value,
    gradient: Float64Array.of(g1 + at * g0),
    hessian: Float64Array.of(h11 + 2 * at * h01 + at * at * h00),
  };
}
