import { patternPredictors, type CoxProblem } from './cox-problem.ts';

/**
 * Sums over the risk sets at given coefficients, one entry an event time: everything a partial
 * likelihood, its derivatives, its residuals and its baseline hazard are made of. `risk` is
 * weight · exp(linear predictor + offset).
 *
 * With d tied events Efron's method walks through k = 0 … d−1, each with denominator
 * total − (k/d) · deathTotal and the mean weight of those tied; Breslow's keeps the denominator
 * whole (Therneau & Grambsch 2000 §3.3). Sums over such a walk are named after what they weigh.
 */
export interface RiskSums {
  /** Linear predictor (without offset) and its exponential, by pattern. */
  readonly predictor: Float64Array;
  readonly ratio: Float64Array;
  /** Σ risk over those at risk, and over those that fail. */
  readonly total: Float64Array;
  readonly deathTotal: Float64Array;
  /** Σ 1/denominator: the hazard increment; and the part of it (shares k/d) that the tied are spared. */
  readonly hazard: Float64Array;
  readonly spared: Float64Array;
  /** Σ 1/denominator², with shares, with shares squared. */
  readonly outer: Float64Array;
  readonly cross: Float64Array;
  readonly inner: Float64Array;
  /** Whether the running sums were added up afresh at this time. */
  readonly rebuilt: Uint8Array;
  /** Σ risk · design over those at risk, and over those that fail together with others: times × width. */
  readonly first: Float64Array;
  readonly deathFirst: Float64Array;
}

/** Rebuild the running sums when what is left of them is this small against what they held. */
const WORN = 1e-6;

/** Room for the sums of one problem, used again by every evaluation. */
export function riskSumsFor({ sets, width, patterns }: CoxProblem): RiskSums {
  const times = sets.time.length;
  const byTime = () => new Float64Array(times);
  const tied = sets.deaths.some((deaths) => deaths > 1);
  return {
    predictor: new Float64Array(patterns),
    ratio: new Float64Array(patterns),
    total: byTime(),
    deathTotal: byTime(),
    hazard: byTime(),
    spared: byTime(),
    outer: byTime(),
    cross: byTime(),
    inner: byTime(),
    rebuilt: new Uint8Array(times),
    first: new Float64Array(times * width),
    deathFirst: new Float64Array(tied ? times * width : 0),
  };
}

/** exp of the offset times the weight: what a position's risk is beyond its pattern's ratio. */
export const factorAt = ({ weight, offset }: CoxProblem, position: number): number =>
  (weight ? (weight[position] as number) : 1) * (offset ? Math.exp(offset[position] as number) : 1);

/**
 * Fills all but `first` and `deathFirst` at centred, scaled coefficients; returns Σ log denominator.
 * Time runs backwards within each stratum: rows join at their exit and leave at their entry, so
 * each is met at most twice.
 *
 * Leaving is a subtraction, and what a large risk leaves behind is its rounding error. When the
 * sum has worn down far below its peak it is added up afresh from those still at risk (a risk set
 * that runs empty early under late entry is the case that breaks a plain running sum).
 */
export function sweepTotals(problem: CoxProblem, beta: Float64Array, sums: RiskSums): number {
  const { sets, ties } = problem;
  const { predictor, ratio } = sums;
  predictor.set(patternPredictors(problem, beta));
  for (let k = 0; k < ratio.length; k++) ratio[k] = Math.exp(predictor[k] as number);
  for (let stratum = 0; stratum < sets.strata.length; stratum++) sweepStratum(problem, sums, stratum);
  let logs = 0;
  for (let time = 0; time < sets.time.length; time++)
    logs += fillTie(
      sums,
      time,
      ties === 'efron' ? (sets.deaths[time] as number) : 1,
      problem.events.weight[time] as number,
    );
  return logs;
}

function sweepStratum(problem: CoxProblem, sums: RiskSums, stratum: number): void {
  const { sets, pattern } = problem;
  const { firstPosition, firstLate, late, deaths } = sets;
  const { ratio, total, deathTotal } = sums;
  const plain = problem.weight === null && problem.offset === null;
  const [from, to] = [sets.firstTime[stratum] as number, sets.firstTime[stratum + 1] as number];
  let running = 0;
  let peak = 0;
  for (let time = to - 1; time >= from; time--) {
    const start = firstPosition[time] as number;
    const alive = start + (deaths[time] as number);
    const end = firstPosition[time + 1] as number;
    let [dying, living] = [0, 0];
    for (let position = start; position < end; position++) {
      let risk = ratio[pattern[position] as number] as number;
      if (!plain) risk *= factorAt(problem, position);
      if (position < alive) dying += risk;
      else living += risk;
    }
    running += dying + living;
    if (running > peak) peak = running;
    const gone = firstLate[time + 1] as number;
    for (let index = firstLate[time] as number; index < gone; index++) {
      const position = late[index] as number;
      const risk = ratio[pattern[position] as number] as number;
      running -= plain ? risk : risk * factorAt(problem, position);
    }
    sums.rebuilt[time] = running < WORN * peak ? 1 : 0;
    if (running < WORN * peak) peak = running = freshTotal(problem, ratio, time, to);
    total[time] = running;
    deathTotal[time] = dying;
  }
}

/** Total risk of those at risk at `time`, in a stratum whose times end before `end`. */
function freshTotal(problem: CoxProblem, ratio: Float64Array, time: number, end: number): number {
  const { firstPosition, entryTime } = problem.sets;
  let sum = 0;
  for (let position = firstPosition[time] as number; position < (firstPosition[end] as number); position++)
    if ((entryTime[position] as number) < time)
      sum += (ratio[problem.pattern[position] as number] as number) * factorAt(problem, position);
  return sum;
}

/** Fills the tie's sums at one time and returns its Σ log denominator. */
function fillTie(sums: RiskSums, time: number, steps: number, weight: number): number {
  const total = sums.total[time] as number;
  const dying = sums.deathTotal[time] as number;
  const step = weight / steps;
  let [hazard, spared, outer, cross, inner, logs] = [0, 0, 0, 0, 0, 0];
  // One logarithm for many denominators, taken before their product can overflow.
  let product = 1;
  for (let k = 0; k < steps; k++) {
    const share = k / steps;
    const denominator = total - share * dying;
    const inverse = 1 / denominator;
    const square = inverse * inverse;
    hazard += inverse;
    spared += share * inverse;
    outer += square;
    cross += share * square;
    inner += share * share * square;
    product *= denominator;
    if (product > 1e150 || product < 1e-150) {
      logs += Math.log(product);
      product = 1;
    }
  }
  sums.hazard[time] = step * hazard;
  sums.spared[time] = step * spared;
  sums.outer[time] = step * outer;
  sums.cross[time] = step * cross;
  sums.inner[time] = step * inner;
  return step * (logs + Math.log(product));
}
