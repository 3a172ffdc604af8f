import chiSquareQuantile from '@stdlib/stats-base-dists-chisquare-quantile';
import { logLifeLikelihood } from './log-life-likelihood.ts';
import type { LogLifeDistribution } from './log-life-distribution.ts';
import type { LifeRows } from './life-rows.ts';
import { findRoot } from './numeric/find-root.ts';
import { maximise, type Evaluation, type Maximum } from './numeric/maximise.ts';

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
  const drop = chiSquareQuantile(level, 1) / 2;
  const full = logLifeLikelihood(rows, terms, null, { fixedAlpha });
  const shortfall = (value: number) => top.evaluation.value - value - drop;

  const atAlpha = (fixed: number) => {
    const evaluate = logLifeLikelihood(rows, terms, null, { fixedAlpha: fixed });
    return maximise(evaluate, [(gamma / alpha) * fixed]).evaluation.value;
  };
  // With z = α (y − at) + z0 held at one point, only α is left.
  const through = (at: number, z0: number) => {
    if (fixedAlpha !== null) return full(Float64Array.of(fixedAlpha * at - z0)).value;
    const along = (theta: Float64Array) => alongLine(full, theta[0] as number, at, z0);
    return maximise(along, [alpha], { inside: (theta) => (theta[0] as number) > 0 }).evaluation.value;
  };
  return {
    alpha: () => {
      const { lower, upper } = outwards((logAlpha) => shortfall(atAlpha(Math.exp(logAlpha))), Math.log(alpha), 0.05);
      return { lower: Math.exp(lower), upper: Math.exp(upper) };
    },
    logLife: (q) => outwards((at) => shortfall(through(at, q)), (gamma + q) / alpha, 0.05 / alpha),
    standardised: (y) => outwards((z) => shortfall(through(y, z)), alpha * y - gamma, 0.05),
  };
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

/** Where `excess` (negative at `from`) turns positive on either side; infinite where it never does. */
function outwards(excess: (x: number) => number, from: number, step: number): Limits {
  const towards = (sign: number) => {
    let [near, reach] = [from, step];
    for (let doubling = 0; doubling < 20; doubling++, reach *= 2) {
      const far = from + sign * reach;
      const at = excess(far);
      if (Number.isNaN(at)) break;
      if (at > 0) return findRoot(excess, near, far);
      near = far;
    }
    return sign * Infinity;
  };
  return { lower: towards(-1), upper: towards(1) };
}
