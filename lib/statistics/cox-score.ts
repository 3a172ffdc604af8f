import { addWeightedProducts, mirrorLower } from './numeric/weighted-products.ts';
import { cumulate } from './cox-likelihood.ts';
import type { CoxProblem } from './cox-problem.ts';
import type { RiskSums } from './cox-sweep.ts';

/**
 * Weighted score residuals (Therneau & Grambsch 2000 §4.6, eq. 4.12, with Efron's ties as in their
 * §4.6.1) in centred and scaled covariates, added up by cluster: row-major clusters × width.
 * `clusterOf` gives the cluster of each row; with one cluster a row the residuals come out by row.
 * `sums` must hold `first` too; with `tilt`, a factor at each event time, the residuals are those of
 * covariates times that factor. Outside check: the robust covariances of the reference pack.
 */
export function clusterScores(
  problem: CoxProblem,
  plain: RiskSums,
  clusterOf: ArrayLike<number>,
  clusters: number,
  tilt: Float64Array | null = null,
): Float64Array {
  const sums = tilt ? tilted(plain, tilt) : plain;
  const { sets, width } = problem;
  const scores = new Float64Array(clusters * width);
  const hazard = cumulate(sets.firstTime, sums.hazard);
  const mean = cumulateMeans(problem, sums);
  // What is fetched from all over memory is fetched once: the cluster's sums, and at entry the means.
  const cluster = new Int32Array(sets.row.length);
  for (let position = 0; position < cluster.length; position++)
    cluster[position] = clusterOf[sets.row[position] as number] as number;
  for (let time = 0; time < hazard.length; time++)
    addTime(problem, sums, time, tilt ? (tilt[time] as number) : 1, hazard, mean, cluster, scores);
  return scores;
}

/** Everything that is summed over time, times a factor of time. */
function tilted(sums: RiskSums, tilt: Float64Array): RiskSums {
  const times = (values: Float64Array) => values.map((value, time) => value * (tilt[time] as number));
  const { hazard, spared, outer, cross, inner } = sums;
  return {
    ...sums,
    ...{ hazard: times(hazard), spared: times(spared) },
    ...{ outer: times(outer), cross: times(cross), inner: times(inner) },
  };
}

/** ∫ mean dH from each event time on, times × width. */
function cumulateMeans({ sets, width }: CoxProblem, { first, deathFirst, outer, cross }: RiskSums): Float64Array {
  const mean = new Float64Array(first.length);
  for (let stratum = 0; stratum < sets.strata.length; stratum++) {
    const from = sets.firstTime[stratum] as number;
    for (let time = from; time < (sets.firstTime[stratum + 1] as number); time++) {
      const [a, b, base] = [outer[time] as number, cross[time] as number, time * width];
      for (let at = base; at < base + width; at++) {
        const before = time > from ? (mean[at - width] as number) : 0;
        const step = a * (first[at] as number);
        mean[at] = before + (b === 0 ? step : step - b * (deathFirst[at] as number));
      }
    }
  }
  return mean;
}

/** Every row that leaves at one event time or before the next: −risk · ∫ (x − mean) dH over its time at risk. */
function addTime(
  problem: CoxProblem,
  sums: RiskSums,
  time: number,
  factor: number,
  hazard: Float64Array,
  mean: Float64Array,
  cluster: Int32Array,
  scores: Float64Array,
): void {
  const { sets, width, table, pattern, weight, offset } = problem;
  const { entryTime } = sets;
  const start = sets.firstPosition[time] as number;
  const alive = start + (sets.deaths[time] as number);
  const end = sets.firstPosition[time + 1] as number;
  const last = time * width;
  const reached = hazard[time] as number;
  for (let position = start; position < end; position++) {
    const k = pattern[position] as number;
    let risk = sums.ratio[k] as number;
    if (weight) risk *= weight[position] as number;
    if (offset) risk *= Math.exp(offset[position] as number);
    const into = (cluster[position] as number) * width;
    const entry = entryTime[position] as number;
    const from = k * width;
    if (entry < 0) {
      const span = risk * reached;
      for (let j = 0; j < width; j++)
        scores[into + j] =
          (scores[into + j] as number) - span * (table[from + j] as number) + risk * (mean[last + j] as number);
    } else {
      const span = risk * (reached - (hazard[entry] as number));
      const before = entry * width;
      for (let j = 0; j < width; j++)
        scores[into + j] =
          (scores[into + j] as number) -
          span * (table[from + j] as number) +
          risk * ((mean[last + j] as number) - (mean[before + j] as number));
    }
    if (position < alive) addEvent(problem, sums, time, factor, position, risk, into, scores);
  }
}

/** What an event adds: factor · weight · (x − mean over its tie), and the part of the hazard it is spared. */
function addEvent(
  { sets, width, table, pattern, weight, events }: CoxProblem,
  { first, deathFirst, hazard, spared, cross, inner }: RiskSums,
  time: number,
  factor: number,
  position: number,
  risk: number,
  into: number,
  scores: Float64Array,
): void {
  const from = (pattern[position] as number) * width;
  const base = time * width;
  const w = weight ? (weight[position] as number) : 1;
  const share = w / (events.weight[time] as number);
  const own = w * factor;
  const onFirst = share * (hazard[time] as number);
  if ((sets.deaths[time] as number) === 1 || spared[time] === 0) {
    for (let j = 0; j < width; j++)
      scores[into + j] =
        (scores[into + j] as number) + own * (table[from + j] as number) - onFirst * (first[base + j] as number);
    return;
  }
  // Σ step · (first − share · gone) / denominator over a tie is its mean times the weight that failed.
  const onDeath = share * (spared[time] as number);
  const onDesign = own + risk * (spared[time] as number);
  const sparedFirst = onFirst + risk * (cross[time] as number);
  const sparedDeath = onDeath + risk * (inner[time] as number);
  for (let j = 0; j < width; j++)
    scores[into + j] =
      (scores[into + j] as number) +
      onDesign * (table[from + j] as number) -
      sparedFirst * (first[base + j] as number) +
      sparedDeath * (deathFirst[base + j] as number);
}

/** Σ over clusters of score · scoreᵀ, row-major width × width. */
export function scoreProducts(scores: Float64Array, width: number): Float64Array {
  const products = new Float64Array(width * width);
  addWeightedProducts(products, scores, width, scores.length / width, null, 1);
  return mirrorLower(products, width);
}
