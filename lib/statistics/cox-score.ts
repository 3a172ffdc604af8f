import { cumulate, noTerms, tieTerms } from './cox-likelihood.ts';
import type { CoxProblem } from './cox-problem.ts';
import type { RiskSums } from './cox-sweep.ts';

/**
 * Weighted score residuals (Therneau & Grambsch 2000 §4.6, eq. 4.12, with Efron's ties as in their
 * §4.6.1) in centred and scaled covariates, added up by cluster: row-major clusters × width.
 * `clusterOf` gives the cluster of each row; with one cluster a row the residuals come out by row.
 * Outside check: the robust covariances of the reference pack.
 */
export function clusterScores(
  problem: CoxProblem,
  sums: RiskSums,
  clusterOf: ArrayLike<number>,
  clusters: number,
): Float64Array {
  const { width } = problem;
  const scores = new Float64Array(clusters * width);
  const paths = hazardPaths(problem, sums, clusterOf, scores);
  addCompensators(problem, sums, clusterOf, paths, scores);
  return scores;
}

interface HazardPaths {
  /** Cumulative hazard from each event time on, T. */
  readonly hazard: Float64Array;
  /** Cumulative ∫ mean dH, T × width. */
  readonly mean: Float64Array;
}

/** Cumulates hazard and means over event times; adds what the events themselves contribute. */
function hazardPaths(
  problem: CoxProblem,
  sums: RiskSums,
  clusterOf: ArrayLike<number>,
  scores: Float64Array,
): HazardPaths {
  const { sets, width, ties } = problem;
  const times = sets.time.length;
  const increments = new Float64Array(times);
  const mean = new Float64Array(times * width);
  const terms = noTerms();
  let stratumStart = 0;
  for (let time = 0, stratum = 0; time < times; time++) {
    while (time >= (sets.firstTime[stratum + 1] as number)) stratumStart = sets.firstTime[++stratum] as number;
    tieTerms(sums, time, sets.deaths[time] as number, ties === 'efron', terms);
    increments[time] = terms.hazard;
    const base = time * width;
    for (let j = 0; j < width; j++) {
      const before = time > stratumStart ? (mean[base - width + j] as number) : 0;
      const step = terms.outer * (sums.first[base + j] as number) - terms.cross * (sums.deathFirst[base + j] as number);
      mean[base + j] = before + step;
    }
    addEvents(problem, sums, time, clusterOf, terms, scores);
  }
  return { hazard: cumulate(sets.firstTime, increments), mean };
}

/** Event rows: weight · (x − mean over the tie), plus the part of the hazard they are spared. */
function addEvents(
  { sets, width, table, pattern, weight, offset }: CoxProblem,
  sums: RiskSums,
  time: number,
  clusterOf: ArrayLike<number>,
  terms: ReturnType<typeof noTerms>,
  scores: Float64Array,
): void {
  const start = sets.firstPosition[time] as number;
  const deaths = sets.deaths[time] as number;
  const base = time * width;
  const dying = sums.deathWeight[time] as number;
  for (let position = start; position < start + deaths; position++) {
    const k = pattern[position] as number;
    const w = weight ? (weight[position] as number) : 1;
    const risk = w * (sums.ratio[k] as number) * (offset ? Math.exp(offset[position] as number) : 1);
    const into = (clusterOf[sets.row[position] as number] as number) * width;
    for (let j = 0; j < width; j++) {
      const x = table[k * width + j] as number;
      const [first, gone] = [sums.first[base + j] as number, sums.deathFirst[base + j] as number];
      // Σ step · (first − share·gone) / denominator over the tie is its mean times the weight that died.
      const tieMean = (terms.hazard * first - terms.spared * gone) / dying;
      const sparedMean = terms.cross * first - terms.inner * gone;
      scores[into + j] = (scores[into + j] as number) + w * (x - tieMean) + risk * (terms.spared * x - sparedMean);
    }
  }
}

/** Every row: −risk · ∫ (x − mean) dH over its time at risk. */
function addCompensators(
  { sets, width, table, pattern, weight, offset }: CoxProblem,
  sums: RiskSums,
  clusterOf: ArrayLike<number>,
  { hazard, mean }: HazardPaths,
  scores: Float64Array,
): void {
  for (let time = 0; time < hazard.length; time++) {
    const end = sets.firstPosition[time + 1] as number;
    const last = time * width;
    for (let position = sets.firstPosition[time] as number; position < end; position++) {
      const k = pattern[position] as number;
      let risk = sums.ratio[k] as number;
      if (weight) risk *= weight[position] as number;
      if (offset) risk *= Math.exp(offset[position] as number);
      const into = (clusterOf[sets.row[position] as number] as number) * width;
      const entry = sets.entryTime[position] as number;
      const from = k * width;
      if (entry < 0) {
        const span = hazard[time] as number;
        for (let j = 0; j < width; j++)
          scores[into + j] =
            (scores[into + j] as number) - risk * (span * (table[from + j] as number) - (mean[last + j] as number));
        continue;
      }
      const span = (hazard[time] as number) - (hazard[entry] as number);
      const first = entry * width;
      for (let j = 0; j < width; j++)
        scores[into + j] =
          (scores[into + j] as number) -
          risk * (span * (table[from + j] as number) - ((mean[last + j] as number) - (mean[first + j] as number)));
    }
  }
}

/** Σ over clusters of score · scoreᵀ, row-major width × width. */
export function scoreProducts(scores: Float64Array, width: number): Float64Array {
  const products = new Float64Array(width * width);
  for (let from = 0; from < scores.length; from += width)
    for (let row = 0; row < width; row++) {
      const value = scores[from + row] as number;
      for (let column = 0, at = row * width; column <= row; column++, at++)
        products[at] = (products[at] as number) + value * (scores[from + column] as number);
    }
  for (let row = 0; row < width; row++)
    for (let column = 0; column < row; column++)
      products[column * width + row] = products[row * width + column] as number;
  return products;
}
