import { addWeightedProducts, addWeightedRows, mirrorLower } from './numeric/weighted-products.ts';
import type { CoxProblem } from './cox-problem.ts';
import { sweepFirst } from './cox-sweep-first.ts';
import { riskSumsFor, sweepTotals, type RiskSums } from './cox-sweep.ts';

/** A log partial likelihood with its derivatives, in centred and scaled coefficients. */
export interface CoxEvaluation {
  readonly value: number;
  readonly score: Float64Array;
  /**
   * Minus the second derivatives, row-major width × width. Costs several times the rest, so it is
   * worked out when asked for, and must be before the sums are used again.
   */
  readonly information: () => Float64Array;
  readonly sums: RiskSums;
}

/** Evaluates the log partial likelihood and its score. `sums` is overwritten. */
export function evaluateCox(
  problem: CoxProblem,
  beta: Float64Array,
  sums: RiskSums = riskSumsFor(problem),
): CoxEvaluation {
  const { sets, width, table, events } = problem;
  const logs = sweepTotals(problem, beta, sums);
  const expected = expectedByPattern(problem, cumulate(sets.firstTime, sums.hazard), sums.spared);
  const score = events.design.slice();
  for (let k = 0; k < expected.length; k++) expected[k] = (expected[k] as number) * (sums.ratio[k] as number);
  const due = new Float64Array(width);
  addWeightedRows(due, table, width, 0, expected.length, expected, 0);
  for (let j = 0; j < width; j++) score[j] = (score[j] as number) - (due[j] as number);
  const value = events.design.reduce((sum, x, j) => sum + x * (beta[j] as number), events.offset) - logs;
  let known: Float64Array | null = null;
  return { value, score, sums, information: () => (known ??= informationOf(problem, sums, expected)) };
}

/** Running sums of increments within each stratum: the value from each event time on. */
export function cumulate(firstTime: Int32Array, increments: Float64Array): Float64Array {
  const cumulative = new Float64Array(increments.length);
  for (let stratum = 0; stratum + 1 < firstTime.length; stratum++) {
    let sum = 0;
    for (let time = firstTime[stratum] as number; time < (firstTime[stratum + 1] as number); time++)
      cumulative[time] = sum += increments[time] as number;
  }
  return cumulative;
}

/**
 * Σ factor · [H(exit) − H(entry)] over the positions of each pattern, for a cumulative H by event
 * time; events of a tie are spared their part. With H the hazard this is, times the pattern's
 * ratio, the expected number of events; the sum over risk sets and event times is thus exchanged
 * for a sum over rows, and squares and products of covariates are needed once a pattern only.
 */
export function expectedByPattern(problem: CoxProblem, cumulative: Float64Array, spared: Float64Array): Float64Array {
  const { sets, pattern, weight, offset, patterns } = problem;
  const expected = new Float64Array(patterns);
  for (let time = 0; time < cumulative.length; time++) {
    const end = sets.firstPosition[time + 1] as number;
    const start = sets.firstPosition[time] as number;
    const lastDeath = start + (sets.deaths[time] as number);
    const reached = cumulative[time] as number;
    for (let position = start; position < end; position++) {
      const entry = sets.entryTime[position] as number;
      let span = entry < 0 ? reached : reached - (cumulative[entry] as number);
      if (position < lastDeath) span -= spared[time] as number;
      if (weight) span *= weight[position] as number;
      if (offset) span *= Math.exp(offset[position] as number);
      const k = pattern[position] as number;
      expected[k] = (expected[k] as number) + span;
    }
  }
  return expected;
}

/** Σ expected · x xᵀ over patterns − Σ mean · meanᵀ over the steps of every tie. */
function informationOf(problem: CoxProblem, sums: RiskSums, expected: Float64Array): Float64Array {
  const { width, table, patterns } = problem;
  sweepFirst(problem, sums);
  const information = new Float64Array(width * width);
  addWeightedProducts(information, table, width, patterns, expected, 1);
  subtractMeans(information, problem, sums, sums.outer, sums.cross, sums.inner);
  return mirrorLower(information, width);
}

/**
 * Lower triangle −= Σ over times of outer · f fᵀ − cross · (f dᵀ + d fᵀ) + inner · d dᵀ, f and d the
 * sums over those at risk and those that fail. Completing the square makes each a sum of two plain
 * squares: outer · (f − c d)(f − c d)ᵀ + (inner − c · cross) · d dᵀ with c = cross / outer.
 */
export function subtractMeans(
  information: Float64Array,
  { width }: CoxProblem,
  { first, deathFirst }: RiskSums,
  outer: Float64Array,
  cross: Float64Array,
  inner: Float64Array,
): void {
  const times = outer.length;
  const tied = deathFirst.length > 0 && cross.some((value) => value !== 0);
  if (!tied) {
    addWeightedProducts(information, first, width, times, outer, -1);
    return;
  }
  const shifted = new Float64Array(first.length);
  const rest = new Float64Array(times);
  for (let time = 0, at = 0; time < times; time++) {
    const c = cross[time] === 0 ? 0 : (cross[time] as number) / (outer[time] as number);
    rest[time] = (inner[time] as number) - c * (cross[time] as number);
    for (let j = 0; j < width; j++, at++)
      shifted[at] = c === 0 ? (first[at] as number) : (first[at] as number) - c * (deathFirst[at] as number);
  }
  addWeightedProducts(information, shifted, width, times, outer, -1);
  addWeightedProducts(information, deathFirst, width, times, rest, -1);
}
