import { climbToTop, NEGLIGIBLE, type Climbable, type Top } from './climb-to-top.ts';
import { climb } from './newton-climb.ts';
import {
  interceptOnly,
  countProblem,
  poissonLikelihood,
  predictorsOf,
  type CountProblem,
} from './poisson-likelihood.ts';
import {
  fitOverdispersed,
  likelihoodAtTheta,
  negativeBinomial,
  type NegativeBinomial,
} from './poisson-overdispersion.ts';

/** Coefficients of counts, centred and scaled, where the likelihood is highest. */
export interface CountFit {
  readonly gamma: Float64Array;
  /** Infinity for Poisson counts. */
  readonly theta: number;
  readonly value: number;
  readonly iterations: number;
  readonly converged: boolean;
  /** The Poisson fit, which has what is infinite; the same for negative binomial counts. */
  readonly poisson: Top;
  /** The likelihood that can be evaluated at other θ, for negative binomial counts. */
  readonly at: NegativeBinomial | null;
}

export function fitCounts(problem: CountProblem, overdispersed: boolean): CountFit {
  const poisson = climbToTop(poissonLikelihood(problem), new Float64Array(problem.design.width + 1));
  const at = overdispersed ? negativeBinomial(problem) : null;
  const found = at && poisson.converged ? fitOverdispersed(problem, at, poisson) : null;
  if (!found) {
    const { beta: gamma, value, iterations, converged } = poisson;
    return { gamma, theta: Infinity, value, iterations, converged, poisson, at };
  }
  return { ...found, iterations: poisson.iterations + found.iterations, poisson, at };
}

/** The likelihood over γ at the θ of a fit. */
export const likelihoodOf = (problem: CountProblem, { theta, at }: CountFit): Climbable =>
  at && theta < Infinity ? likelihoodAtTheta(problem, at, theta) : poissonLikelihood(problem);

/** How far the counts lie from what a fit expects. */
export interface Goodness {
  readonly deviance: number;
  readonly pearson: number;
  /** Weight of the rows whose rate is not zero in the limit, less the parameters of the mean. */
  readonly degreesOfFreedom: number;
}

/** Deviance and Pearson χ² by row (McCullagh & Nelder §6.2, 6.4; with θ: §11.2). */
export function goodnessOf(problem: CountProblem, gamma: Float64Array, theta: number, top: Top | null): Goodness {
  const { rows, design } = problem;
  const predictors = predictorsOf(problem, gamma);
  const gone = vanished(problem, top?.directions ?? []);
  let [deviance, pearson, counted] = [0, 0, 0];
  for (let row = 0; row < rows.size; row++) {
    const k = design.pattern ? (design.pattern[row] as number) : row;
    if (gone[k] === 1) continue;
    const w = rows.weight ? (rows.weight[row] as number) : 1;
    const y = rows.events[row] as number;
    const mean = Math.exp((predictors[k] as number) + (rows.offset[row] as number));
    counted += w;
    const own = y > 0 ? y * Math.log(y / mean) : 0;
    const rest = theta < Infinity ? (y + theta) * Math.log1p((y - mean) / (theta + mean)) : y - mean;
    deviance += 2 * w * (own - rest);
    if (mean > 0) pearson += (w * (y - mean) ** 2) / (mean * (1 + mean / theta));
  }
  return { deviance: Math.max(0, deviance), pearson, degreesOfFreedom: counted - (top?.free.length ?? 1) };
}

/** Deviance of the intercept alone at a known θ. */
export function nullDeviance({ rows }: CountProblem, theta: number): number {
  const problem = countProblem(rows, interceptOnly(rows));
  const zero = new Float64Array(1);
  if (theta === Infinity) return goodnessOf(problem, zero, theta, null).deviance;
  const { evaluate } = likelihoodAtTheta(problem, negativeBinomial(problem), theta);
  return goodnessOf(problem, climb(evaluate, zero, [0]).beta, theta, null).deviance;
}

/** Design rows whose rate falls to zero in the limit of a monotone likelihood. */
function vanished(problem: CountProblem, directions: readonly Float64Array[]): Uint8Array {
  const gone = new Uint8Array(problem.design.count);
  for (const direction of directions)
    predictorsOf(problem, direction).forEach((move, k) => {
      if (move < -NEGLIGIBLE) gone[k] = 1;
    });
  return gone;
}
