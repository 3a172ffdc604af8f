import { keptRows, pickRows, type LifeColumns } from './gather-life-rows.ts';
import { RIGHT, type LifeData } from './life-rows.ts';
import { toLifeColumns } from './read-life-rows.ts';
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
  const problem = turnbullProblem(toSpans(toLifeColumns(data)));
  const tolerance = options.tolerance ?? 1e-10;
  const gapAt = kuhnTuckerGap(problem);
  const { x, iterations } = climbTurnbull(problem, (at) => gapAt(at) <= tolerance, options.maxIterations ?? 500);
  const gap = gapAt(x);
  const { mass, survival } = masses(problem, x);
  return {
    intervals: { lower: problem.lower, upper: problem.upper, mass },
    survival,
    logLikelihood: logLikelihood(problem, x),
    subjects: problem.subjects,
    gap,
    iterations,
    converged: gap <= Math.max(tolerance, 1e-6),
  };
}

/** Where lives ended: after `lower`, and after they were first watched, by `upper`. */
function toSpans(columns: LifeColumns): Spans {
  const { kind, upper: ends, lower: starts } = columns;
  const source = keptRows(columns);
  const entry = columns.entry && pickRows(columns.entry, source);
  const size = source ? source.length : kind.length;
  const lower = new Float64Array(size);
  const upper = new Float64Array(size);
  for (let k = 0; k < size; k++) {
    const row = source ? (source[k] as number) : k;
    const from = starts ? (starts[row] as number) : (ends[row] as number);
    lower[k] = entry ? Math.max(from, entry[k] as number) : from;
    upper[k] = kind[row] === RIGHT ? Infinity : (ends[row] as number);
  }
  return { lower, upper, entry, weight: columns.weight && pickRows(columns.weight, source) };
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
 * The gap at any x, room for which is taken once.
 * d_j = Σ w (1 of j in the set / its mass − 1 of j at risk / mass at risk) is the slope of the
 * log-likelihood as mass moves into j: nowhere above zero at the maximum, zero where there is mass.
 */
function kuhnTuckerGap({ from, to, weight, reaching, entering, last, total }: TurnbullProblem) {
  const alive = new Float64Array(last + 2);
  const slope = new Float64Array(last + 2);
  // Written out, not by a closure that adds: numbers handed to one are boxed, a million of them at this size.
  return (x: Float64Array): number => {
    slope.fill(0);
    alive[0] = 1;
    for (let j = 0; j < last; j++) alive[j + 1] = (alive[j] as number) * Math.exp(-(x[j] as number));
    for (let r = 0; r < weight.length; r++) {
      const begin = from[r] as number;
      const end = (to[r] as number) + 1;
      const pull = (weight[r] as number) / ((alive[begin] as number) - (alive[end] as number));
      slope[begin] = (slope[begin] as number) + pull;
      slope[end] = (slope[end] as number) - pull;
    }
    let running = 0;
    let gap = 0;
    for (let j = 0; j <= last; j++) {
      const own = ((reaching[j] as number) - (entering[j] as number)) / (alive[j] as number);
      running += (slope[j] as number) + own;
      gap = Math.max(gap, j === last || (x[j] as number) > 0 ? Math.abs(running) : running);
    }
    return gap / total;
  };
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
