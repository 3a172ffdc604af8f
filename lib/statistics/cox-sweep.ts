import { patternPredictors, type CoxProblem } from './cox-problem.ts';

/**
 * Sums over the risk sets at given coefficients, one entry an event time: everything a partial
 * likelihood, its derivatives, its residuals and its baseline hazard are made of. `risk` is
 * weight · exp(linear predictor).
 */
export interface RiskSums {
  /** Linear predictor (without offset) and its exponential, by pattern. */
  readonly predictor: Float64Array;
  readonly ratio: Float64Array;
  /** Σ risk over those at risk, T. */
  readonly total: Float64Array;
  /** Σ risk · design over those at risk, T × width. */
  readonly first: Float64Array;
  /** The same two sums over the events at each time. */
  readonly deathTotal: Float64Array;
  readonly deathFirst: Float64Array;
  /** Σ weight and Σ weight · (predictor + offset) over the events at each time. */
  readonly deathWeight: Float64Array;
  readonly deathPredictor: Float64Array;
}

/** Rebuild the running sums when what is left of them is this small against what they held. */
const WORN = 1e-6;

/** Room for the sums of one problem, used again by every evaluation. */
export function riskSumsFor({ sets, width, patterns }: CoxProblem): RiskSums {
  const times = sets.time.length;
  const [total, deathTotal, deathWeight, deathPredictor] = Array.from({ length: 4 }, () => new Float64Array(times));
  return {
    predictor: new Float64Array(patterns),
    ratio: new Float64Array(patterns),
    total: total as Float64Array,
    first: new Float64Array(times * width),
    deathTotal: deathTotal as Float64Array,
    deathFirst: new Float64Array(times * width),
    deathWeight: deathWeight as Float64Array,
    deathPredictor: deathPredictor as Float64Array,
  };
}

/**
 * Fills `sums` at centred, scaled coefficients. Time runs backwards within each stratum: rows join
 * at their exit and leave at their entry, so each is met at most twice.
 *
 * Leaving is a subtraction, and what a large risk leaves behind is its rounding error. When the
 * sum has worn down far below its peak it is added up afresh from those still at risk (a risk set
 * that runs empty early under late entry is the case that breaks a plain running sum).
 */
export function sweepRiskSets(problem: CoxProblem, beta: Float64Array, sums: RiskSums): void {
  const { sets, width } = problem;
  sums.predictor.set(patternPredictors(problem, beta));
  for (let k = 0; k < sums.ratio.length; k++) sums.ratio[k] = Math.exp(sums.predictor[k] as number);
  const running = new Float64Array(width + 1);
  for (let stratum = 0; stratum < sets.strata.length; stratum++) {
    const [from, to] = [sets.firstTime[stratum] as number, sets.firstTime[stratum + 1] as number];
    running.fill(0);
    let peak = 0;
    for (let time = to - 1; time >= from; time--) {
      const start = sets.firstPosition[time] as number;
      const deaths = sets.deaths[time] as number;
      addRows(problem, sums.ratio, start + deaths, sets.firstPosition[time + 1] as number, running);
      addDeaths(problem, sums, time, start, start + deaths, running);
      peak = Math.max(peak, running[width] as number);
      if (removeRows(problem, sums.ratio, time, running) && (running[width] as number) < WORN * peak) {
        rebuild(problem, sums.ratio, time, to, running);
        peak = running[width] as number;
      }
      sums.total[time] = running[width] as number;
      for (let j = 0; j < width; j++) sums.first[time * width + j] = running[j] as number;
    }
  }
}

/** exp of the offset times the weight: what a position's risk is beyond its pattern's ratio. */
const factorAt = ({ weight, offset }: CoxProblem, position: number): number =>
  (weight ? (weight[position] as number) : 1) * (offset ? Math.exp(offset[position] as number) : 1);

function addRows(problem: CoxProblem, ratio: Float64Array, from: number, to: number, running: Float64Array): void {
  const { width, table, pattern } = problem;
  const plain = problem.weight === null && problem.offset === null;
  for (let position = from; position < to; position++) {
    const k = pattern[position] as number;
    const risk = plain ? (ratio[k] as number) : (ratio[k] as number) * factorAt(problem, position);
    running[width] = (running[width] as number) + risk;
    for (let j = 0, at = k * width; j < width; j++, at++)
      running[j] = (running[j] as number) + risk * (table[at] as number);
  }
}

function addDeaths(
  problem: CoxProblem,
  sums: RiskSums,
  time: number,
  from: number,
  to: number,
  running: Float64Array,
): void {
  const { width, table, pattern, weight, offset } = problem;
  let [total, weights, predictors] = [0, 0, 0];
  const base = time * width;
  sums.deathFirst.fill(0, base, base + width);
  for (let position = from; position < to; position++) {
    const k = pattern[position] as number;
    const w = weight ? (weight[position] as number) : 1;
    const risk = (sums.ratio[k] as number) * factorAt(problem, position);
    total += risk;
    weights += w;
    predictors += w * ((sums.predictor[k] as number) + (offset ? (offset[position] as number) : 0));
    for (let j = 0, at = k * width; j < width; j++, at++)
      sums.deathFirst[base + j] = (sums.deathFirst[base + j] as number) + risk * (table[at] as number);
  }
  sums.deathTotal[time] = total;
  sums.deathWeight[time] = weights;
  sums.deathPredictor[time] = predictors;
  running[width] = (running[width] as number) + total;
  for (let j = 0; j < width; j++) running[j] = (running[j] as number) + (sums.deathFirst[base + j] as number);
}

function removeRows(problem: CoxProblem, ratio: Float64Array, time: number, running: Float64Array): boolean {
  const { sets, width, table, pattern } = problem;
  const [from, to] = [sets.firstLate[time] as number, sets.firstLate[time + 1] as number];
  for (let index = from; index < to; index++) {
    const position = sets.late[index] as number;
    const k = pattern[position] as number;
    const risk = (ratio[k] as number) * factorAt(problem, position);
    running[width] = (running[width] as number) - risk;
    for (let j = 0, at = k * width; j < width; j++, at++)
      running[j] = (running[j] as number) - risk * (table[at] as number);
  }
  return to > from;
}

/** Adds up afresh those at risk at `time`, in a stratum whose times end before `end`. */
function rebuild(problem: CoxProblem, ratio: Float64Array, time: number, end: number, running: Float64Array): void {
  const { firstPosition, entryTime } = problem.sets;
  running.fill(0);
  for (let position = firstPosition[time] as number; position < (firstPosition[end] as number); position++)
    if ((entryTime[position] as number) < time) addRows(problem, ratio, position, position + 1, running);
}
