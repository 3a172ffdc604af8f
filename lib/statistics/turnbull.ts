import type { LifeData, LifeRows } from './life-rows.ts';
import { toLifeRows } from './read-life-rows.ts';
import { climbTurnbull } from './turnbull-climb.ts';
import { turnbullProblem, type Spans, type TurnbullProblem } from './turnbull-problem.ts';

export interface Turnbull {
  /**
   * The innermost intervals (lower, upper], single points where lower = upper, and the mass of
   * each. Where within an interval its mass lies, the data do not say. Upper of the last is
   * Infinity when lives were still running then.
   */
  readonly intervals: { readonly lower: Float64Array; readonly upper: Float64Array; readonly mass: Float64Array };
  /** Survival at the upper end of each interval. */
  readonly survival: Float64Array;
  readonly logLikelihood: number;
  readonly subjects: number;
  /**
   * How far the Kuhn–Tucker conditions are from holding: the largest gain per unit of weight from
   * moving mass into an interval, or its absolute value where there is mass. With no late entry
   * the log-likelihood is within subjects × gap of its maximum.
   */
  readonly gap: number;
  readonly iterations: number;
  readonly converged: boolean;
}

export interface TurnbullOptions {
  /** Gap at which the climb may stop, default 1e-10. */
  readonly tolerance?: number;
  readonly maxIterations?: number;
}

/**
 * Non-parametric maximum likelihood of the life distribution from interval-censored lives, exact,
 * left- and right-censored ones among them, with late entry and weights. With exact and
 * right-censored lives only it is the product-limit estimate. A set of lives at risk that runs
 * empty ends the curve there: later intervals get no mass.
 *
 * @param data `{ lower, upper, entry?, weight? }` or `{ exit, event, entry?, weight? }` (see fitLife);
 *   spans are open to the left, closed to the right, as inspections find them.
 * @throws StatisticsError on bad columns. `converged` is false where the gap stays above 1e-6.
 * Source: Turnbull 1976, JRSS B 38:290; Frydman 1994 (truncation); Groeneboom & Wellner 1992 §3
 * (Kuhn–Tucker conditions). Outside check: reference cases npmle-*, masses to 1e-5.
 */
export function turnbull(data: LifeData, options: TurnbullOptions = {}): Turnbull {
  const rows = toLifeRows(data);
  const problem = turnbullProblem(toSpans(data, rows));
  const tolerance = options.tolerance ?? 1e-10;
  const { x, iterations } = climbTurnbull(
    problem,
    (at) => kuhnTuckerGap(problem, at) <= tolerance,
    options.maxIterations ?? 500,
  );
  const gap = kuhnTuckerGap(problem, x);
  const { mass, survival } = masses(problem, x);
  return {
    intervals: { lower: problem.lower, upper: problem.upper, mass },
    survival,
    logLikelihood: logLikelihood(problem, x),
    subjects: rows.totalWeight,
    gap,
    iterations,
    converged: gap <= Math.max(tolerance, 1e-6),
  };
}

function toSpans(data: LifeData, { source, weight }: LifeRows): Spans {
  const pick = (values: ArrayLike<number>) =>
    source ? Float64Array.from(source, (row) => values[row] as number) : Float64Array.from(values);
  const entry = data.entry ? pick(data.entry) : null;
  const [lower, upper] = 'exit' in data ? [pick(data.exit), pick(data.exit)] : [pick(data.lower), pick(data.upper)];
  for (let row = 0; row < upper.length; row++) {
    if ('exit' in data && data.event[source ? (source[row] as number) : row] === 0) upper[row] = Infinity;
    if (entry) lower[row] = Math.max(lower[row] as number, entry[row] as number);
  }
  return { lower, upper, entry, weight };
}

function masses({ lower, last }: TurnbullProblem, x: Float64Array) {
  const [mass, survival] = [new Float64Array(lower.length), new Float64Array(lower.length)];
  let left = 1;
  for (let j = 0; j < last; j++) {
    mass[j] = left * -Math.expm1(-(x[j] as number));
    survival[j] = left *= Math.exp(-(x[j] as number));
  }
  mass[last] = left;
  return { mass, survival };
}

/**
 * d_j = Σ w (1 of j in the set / its mass − 1 of j at risk / mass at risk) is the slope of the
 * log-likelihood as mass moves into j: nowhere above zero at the maximum, zero where there is mass.
 */
function kuhnTuckerGap(problem: TurnbullProblem, x: Float64Array): number {
  const { from, to, weight, reaching, entering, last, total } = problem;
  const alive = new Float64Array(last + 2);
  alive[0] = 1;
  for (let j = 0; j < last; j++) alive[j + 1] = (alive[j] as number) * Math.exp(-(x[j] as number));
  const slope = new Float64Array(last + 2);
  const add = (at: number, amount: number) => (slope[at] = (slope[at] as number) + amount);
  for (let r = 0; r < weight.length; r++) {
    const [begin, end] = [from[r] as number, (to[r] as number) + 1];
    const pull = (weight[r] as number) / ((alive[begin] as number) - (alive[end] as number));
    add(begin, pull);
    add(end, -pull);
  }
  for (let j = 0; j <= last; j++) add(j, ((reaching[j] as number) - (entering[j] as number)) / (alive[j] as number));
  let [running, gap] = [0, 0];
  for (let j = 0; j <= last; j++) {
    running += slope[j] as number;
    gap = Math.max(gap, j === last || (x[j] as number) > 0 ? Math.abs(running) : running);
  }
  return gap / total;
}

function logLikelihood({ cost, from, to, weight, last }: TurnbullProblem, x: Float64Array): number {
  const sums = new Float64Array(last + 1);
  let value = 0;
  for (let j = 0; j < last; j++) {
    sums[j + 1] = (sums[j] as number) + (x[j] as number);
    value -= (cost[j] as number) * (x[j] as number);
  }
  for (let r = 0; r < weight.length; r++) {
    const hazard = (sums[(to[r] as number) + 1] as number) - (sums[from[r] as number] as number);
    value += (weight[r] as number) * Math.log(-Math.expm1(-hazard));
  }
  return value;
}
