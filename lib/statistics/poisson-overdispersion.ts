import type { Climbable, Top } from './climb-to-top.ts';
import { climb } from './newton-climb.ts';
import { findRoot } from './numeric/find-root.ts';
import { logRising } from './numeric/log-rising.ts';
import { maximise, type Evaluation } from './numeric/maximise.ts';
import type { CountRows } from './poisson-data.ts';
import {
  climbable,
  overTerms,
  predictorsOf,
  productsOverTerms,
  scoreAndInformation,
  type CountProblem,
} from './poisson-likelihood.ts';
import { StatisticsError } from './statistics-error.ts';

/** The likelihood of a count takes as many steps as the count. */
const MOST_EVENTS = 1e6;
/** log θ searched; beyond the highest, counts are Poisson to within what any data can show. */
const [LEAST_LOG_THETA, MOST_LOG_THETA] = [-6, 16];

/** A negative binomial log-likelihood by design row: derivatives by the predictor η and by log θ. */
export interface NegativeBinomialAt {
  readonly value: number;
  /** ∂/∂η of each design row, minus ∂²/∂η² as observed and as expected, and ∂²/∂η ∂log θ. */
  readonly slopes: Float64Array;
  readonly observed: Float64Array;
  readonly expected: Float64Array;
  readonly cross: Float64Array;
  /** First and second derivative by log θ. */
  readonly thetaSlope: number;
  readonly thetaCurve: number;
}

export type NegativeBinomial = (gamma: Float64Array, theta: number) => NegativeBinomialAt;

/**
 * Counts whose rates are spread as Gamma(θ): variance μ + μ²/θ ("NB2").
 *
 * @throws StatisticsError for a count too high to be worked through.
 */
export function negativeBinomial(problem: CountProblem): NegativeBinomial {
  const { rows, design, constant } = problem;
  const { distinct, countOf } = distinctCounts(rows);
  return (gamma, theta) => {
    const predictors = predictorsOf(problem, gamma);
    const rising = logRising(distinct, theta);
    const column = () => new Float64Array(design.count);
    const [slopes, observed, expected, cross] = [column(), column(), column(), column()];
    let [value, first, second] = [constant, 0, 0];
    for (let row = 0; row < rows.size; row++) {
      const k = design.pattern ? (design.pattern[row] as number) : row;
      const w = rows.weight ? (rows.weight[row] as number) : 1;
      const y = rows.events[row] as number;
      const mean = Math.exp((predictors[k] as number) + (rows.offset[row] as number));
      const at = countOf[row] as number;
      const both = theta + mean;
      const logBoth = Math.log1p(mean / theta);
      const below = theta * both;
      value += w * ((rising.value[at] as number) + y * (predictors[k] as number) - (y + theta) * logBoth);
      first += w * ((rising.slope[at] as number) - logBoth + ((y + theta) * mean) / below);
      second += w * ((rising.bend[at] as number) + mean / below);
      second += ((w * mean) / below) * ((below - (y + theta) * (theta + both)) / below);
      const share = (w * theta) / both;
      slopes[k] = (slopes[k] as number) + share * (y - mean);
      observed[k] = (observed[k] as number) + (share * mean * (theta + y)) / both;
      expected[k] = (expected[k] as number) + share * mean;
      cross[k] = (cross[k] as number) + (share * (y - mean) * mean) / both;
    }
    const thetaSlope = theta * first;
    return {
      ...{ value, slopes, observed, expected, cross },
      ...{ thetaSlope, thetaCurve: theta * theta * second + thetaSlope },
    };
  };
}

/** The log-likelihood over γ at a known θ: concave, as the Poisson one is. */
export const likelihoodAtTheta = (problem: CountProblem, at: NegativeBinomial, theta: number): Climbable =>
  climbable(problem, (gamma) => {
    const { value, slopes, observed } = at(gamma, theta);
    return scoreAndInformation(problem, value, slopes, observed);
  });

export interface OverdispersedFit {
  readonly gamma: Float64Array;
  readonly theta: number;
  readonly value: number;
  readonly iterations: number;
  readonly converged: boolean;
}

/**
 * Maximum over γ and log θ together, from the Poisson fit: what runs away there runs away here too, and is held where
 * it is. Null where no θ beats the Poisson fit, which is θ = ∞.
 */
export function fitOverdispersed(problem: CountProblem, at: NegativeBinomial, poisson: Top): OverdispersedFit | null {
  const { free } = poisson;
  const start = scanTheta(at, poisson.beta);
  const spread = (parameters: Float64Array): Float64Array => {
    const gamma = poisson.beta.slice();
    free.forEach((j, index) => (gamma[j] = parameters[index] as number));
    return gamma;
  };
  const evaluate = (parameters: Float64Array): Evaluation =>
    over([...free, problem.design.width + 1], problem, at(spread(parameters), Math.exp(parameters.at(-1) as number)));
  const top = maximise(evaluate, [...free.map((j) => poisson.beta[j] as number), start], {
    inside: (parameters) => Math.abs(parameters.at(-1) as number) < MOST_LOG_THETA + 4,
    longestStep: [...free.map(() => 4), 2],
  });
  const [value, logTheta] = [top.evaluation.value, top.parameters.at(-1) as number];
  const floor = poisson.value + 1e-9 * (1 + Math.abs(poisson.value));
  if (!(value > floor) || logTheta > MOST_LOG_THETA) return null;
  const { iterations, converged } = top;
  return { gamma: spread(top.parameters), theta: Math.exp(logTheta), value, iterations, converged };
}

/** The log θ that does best at the Poisson coefficients, of some. */
function scanTheta(at: NegativeBinomial, gamma: Float64Array): number {
  let [best, highest] = [0, -Infinity];
  for (let logTheta = LEAST_LOG_THETA; logTheta <= MOST_LOG_THETA; logTheta += 2) {
    const { value } = at(gamma, Math.exp(logTheta));
    if (value > highest) [best, highest] = [logTheta, value];
  }
  return best;
}

/** Value, gradient and Hessian over the listed components of (γ, log θ). */
function over(components: readonly number[], { design }: CountProblem, at: NegativeBinomialAt): Evaluation {
  const gradient = [...overTerms(design, at.slopes), at.thetaSlope];
  const information = jointInformation({ design }, at);
  const n = gradient.length;
  const hessian = new Float64Array(components.length ** 2);
  components.forEach((j, row) =>
    components.forEach(
      (k, column) => (hessian[row * components.length + column] = -(information[j * n + k] as number)),
    ),
  );
  return { value: at.value, gradient: Float64Array.from(components, (j) => gradient[j] as number), hessian };
}

/** Minus the second derivatives over (γ, log θ), row-major; `expected` has γ and θ independent, as they are on average. */
export function jointInformation(
  { design }: Pick<CountProblem, 'design'>,
  at: NegativeBinomialAt,
  kind: 'observed' | 'expected' = 'observed',
): Float64Array {
  const width = design.width + 1;
  const inner = productsOverTerms(design, at[kind]);
  const cross = kind === 'observed' ? overTerms(design, at.cross) : new Float64Array(width);
  const joint = new Float64Array((width + 1) ** 2);
  for (let row = 0; row < width; row++) {
    joint.set(inner.subarray(row * width, (row + 1) * width), row * (width + 1));
    joint[row * (width + 1) + width] = joint[width * (width + 1) + row] = -(cross[row] as number);
  }
  joint[joint.length - 1] = -at.thetaCurve;
  return joint;
}

/** Lower likelihood limit of θ where its estimate is infinite; 0 where the counts set none. */
export function leastTheta(problem: CountProblem, at: NegativeBinomial, poisson: Top, z: number): number {
  let gamma = poisson.beta;
  const excess = (logTheta: number): number => {
    const top = climb(likelihoodAtTheta(problem, at, Math.exp(logTheta)).evaluate, gamma, poisson.free);
    gamma = top.beta;
    return Math.sqrt(Math.max(0, 2 * (poisson.value - top.value))) - z;
  };
  for (let logTheta = MOST_LOG_THETA - 1; logTheta >= LEAST_LOG_THETA; logTheta--)
    if (excess(logTheta) > 0) return Math.exp(findRoot(excess, logTheta, logTheta + 1));
  return 0;
}

function distinctCounts({ events, source }: CountRows): { distinct: number[]; countOf: Int32Array } {
  const distinct = [...new Set(events)].sort((a, b) => a - b);
  if ((distinct.at(-1) as number) > MOST_EVENTS) {
    const at = events.findIndex((count) => count > MOST_EVENTS);
    const row = source ? (source[at] as number) : at;
    throw new StatisticsError('events', `${events[at]} is too high a count for the negative binomial`, row);
  }
  const index = new Map(distinct.map((count, at) => [count, at]));
  return { distinct, countOf: Int32Array.from(events, (count) => index.get(count) as number) };
}
