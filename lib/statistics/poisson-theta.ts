import type { CountFit } from './poisson-fit.ts';
import type { CountProblem } from './poisson-likelihood.ts';
import { leastTheta, type NegativeBinomial } from './poisson-overdispersion.ts';
import { standardNormalQuantile } from './numeric/normal.ts';
import { LOG_SCALE, waldEstimate, type Estimate } from './working-estimates.ts';

/** θ with limits: Wald ones of log θ, or where θ is infinite the likelihood's own lower limit. */
export function thetaEstimate(problem: CountProblem, fit: CountFit, error: number, level: number): Estimate {
  if (fit.theta < Infinity) {
    const covariance = Float64Array.of(error * error);
    const working = { names: [], values: new Float64Array(1), covariance, robustCovariance: null };
    return waldEstimate(working, level, Math.log(fit.theta), [1], LOG_SCALE);
  }
  const z = standardNormalQuantile(0.5 + level / 2);
  const lower = fit.converged ? leastTheta(problem, fit.at as NegativeBinomial, fit.poisson, z) : 0;
  return { value: Infinity, standardError: Infinity, lower, upper: Infinity };
}
