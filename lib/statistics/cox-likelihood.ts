import type { CoxProblem } from './cox-problem.ts';
import { riskSumsFor, sweepRiskSets, type RiskSums } from './cox-sweep.ts';

/** A log partial likelihood with its derivatives, in centred and scaled coefficients. */
export interface CoxEvaluation {
  readonly logLikelihood: number;
  readonly score: Float64Array;
  /** Minus the second derivatives, row-major width × width. */
  readonly information: Float64Array;
  readonly sums: RiskSums;
}

/**
 * What one event time adds, as weights on the sums there. With d tied events Efron's method walks
 * through k = 0 … d−1, each with denominator total − (k/d) · deathTotal; Breslow's keeps them whole
 * (Therneau & Grambsch 2000 §3.3; weights: an event counts the mean weight of those tied with it).
 */
export interface TieTerms {
  /** Σ 1/denominator: the hazard increment; and the part of it that the dying themselves do not bear. */
  hazard: number;
  spared: number;
  /** Σ log denominator. */
  logs: number;
  /** Coefficients of first·firstᵀ, first·deathFirstᵀ (and its mirror), deathFirst·deathFirstᵀ in Σ mean·meanᵀ. */
  outer: number;
  cross: number;
  inner: number;
}

/** Sums over the steps of a tie, each step with weight `step` (the mean weight of those tied). */
export function tieTerms(sums: RiskSums, time: number, deaths: number, efron: boolean, out: TieTerms): void {
  const total = sums.total[time] as number;
  const weight = sums.deathWeight[time] as number;
  if (!efron || deaths === 1) {
    out.hazard = weight / total;
    out.logs = weight * Math.log(total);
    out.outer = weight / (total * total);
    out.spared = out.cross = out.inner = 0;
    return;
  }
  const step = weight / deaths;
  const dying = sums.deathTotal[time] as number;
  out.hazard = out.spared = out.logs = out.outer = out.cross = out.inner = 0;
  for (let k = 0; k < deaths; k++) {
    const share = k / deaths;
    const inverse = 1 / (total - share * dying);
    out.hazard += step * inverse;
    out.spared += step * share * inverse;
    out.logs -= step * Math.log(inverse);
    out.outer += step * inverse * inverse;
    out.cross += step * share * inverse * inverse;
    out.inner += step * share * share * inverse * inverse;
  }
}

export const noTerms = (): TieTerms => ({ hazard: 0, spared: 0, logs: 0, outer: 0, cross: 0, inner: 0 });

/** Evaluates the log partial likelihood, its score and its information. `sums` is overwritten. */
export function evaluateCox(
  problem: CoxProblem,
  beta: Float64Array,
  sums: RiskSums = riskSumsFor(problem),
): CoxEvaluation {
  const { sets, width, ties } = problem;
  sweepRiskSets(problem, beta, sums);
  const information = new Float64Array(width * width);
  const hazard = new Float64Array(sets.time.length);
  const spared = new Float64Array(sets.time.length);
  const terms = noTerms();
  let logLikelihood = 0;
  for (let time = 0; time < hazard.length; time++) {
    const deaths = sets.deaths[time] as number;
    tieTerms(sums, time, deaths, ties === 'efron', terms);
    hazard[time] = terms.hazard;
    spared[time] = terms.spared;
    logLikelihood += (sums.deathPredictor[time] as number) - terms.logs;
    subtractMeans(information, sums, time, width, terms);
  }
  const expected = expectedByPattern(problem, cumulate(sets.firstTime, hazard), spared);
  for (let k = 0; k < expected.length; k++) expected[k] = (expected[k] as number) * (sums.ratio[k] as number);
  const score = addSquares(problem, expected, information);
  return { logLikelihood, score, information, sums };
}

/** information −= Σ over the tie of mean · meanᵀ (lower triangle only). */
function subtractMeans(information: Float64Array, sums: RiskSums, time: number, width: number, terms: TieTerms): void {
  const base = time * width;
  const { outer, cross, inner } = terms;
  for (let row = 0; row < width; row++) {
    const a = sums.first[base + row] as number;
    const whole = outer * a;
    if (cross === 0) {
      for (let column = 0, at = row * width; column <= row; column++, at++)
        information[at] = (information[at] as number) - whole * (sums.first[base + column] as number);
      continue;
    }
    const d = sums.deathFirst[base + row] as number;
    const onFirst = whole - cross * d;
    const onDeath = inner * d - cross * a;
    for (let column = 0, at = row * width; column <= row; column++, at++)
      information[at] =
        (information[at] as number) -
        onFirst * (sums.first[base + column] as number) -
        onDeath * (sums.deathFirst[base + column] as number);
  }
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

/** Adds Σ expected · x xᵀ to the information, mirrors it, and returns the score. */
function addSquares(
  { width, table, eventSum }: CoxProblem,
  expected: Float64Array,
  information: Float64Array,
): Float64Array {
  const score = eventSum.slice();
  for (let k = 0; k < expected.length; k++) {
    const e = expected[k] as number;
    const base = k * width;
    for (let row = 0; row < width; row++) {
      const weighted = e * (table[base + row] as number);
      score[row] = (score[row] as number) - weighted;
      for (let column = 0, at = row * width; column <= row; column++, at++)
        information[at] = (information[at] as number) + weighted * (table[base + column] as number);
    }
  }
  for (let row = 0; row < width; row++)
    for (let column = 0; column < row; column++)
      information[column * width + row] = information[row * width + column] as number;
  return score;
}
