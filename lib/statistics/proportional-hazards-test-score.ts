import { cumulate, expectedByPattern, subtractMeans } from './cox-likelihood.ts';
import type { CoxProblem } from './cox-problem.ts';
import type { RiskSums } from './cox-sweep.ts';
import { cholesky, choleskyFailed, solveCholesky } from './numeric/cholesky.ts';
import { addWeightedProducts, mirrorLower } from './numeric/weighted-products.ts';

/**
 * Score of adding g(time) · x to a fit and its variance given the fit: over the columns `tested`,
 * row-major. `sums` must be those at the fit, `first` included; `fitted` are the columns estimated.
 * `leaning` says by how much the score of each tested column leans on that of each fitted one.
 */
export function tiltTest(
  problem: CoxProblem,
  sums: RiskSums,
  g: Float64Array,
  fitted: readonly number[],
  tested: readonly number[],
): { tilt: Float64Array; variance: Float64Array; leaning: readonly Float64Array[] } {
  const { width } = problem;
  const ones = g.map(() => 1);
  const plain = weightedInformation(problem, sums, ones);
  const tilted = weightedInformation(problem, sums, g);
  const squared = weightedInformation(
    problem,
    sums,
    g.map((value) => value * value),
  );
  const size = fitted.length;
  const inner = new Float64Array(size * size);
  fitted.forEach((j, row) =>
    fitted.forEach((k, column) => (inner[row * size + column] = plain[j * width + k] as number)),
  );
  const factor = cholesky(inner, size, 1e-14);
  const variance = new Float64Array(tested.length * tested.length);
  const leaning = tested.map((k) => {
    const cross = fitted.map((j) => tilted[j * width + k] as number);
    return choleskyFailed(factor) ? new Float64Array(size) : solveCholesky(factor, cross);
  });
  tested.forEach((k, column) =>
    tested.forEach((j, row) => {
      const taken = (leaning[column] as Float64Array).reduce(
        (sum, value, index) => sum + value * (tilted[j * width + (fitted[index] as number)] as number),
        0,
      );
      const left = (squared[j * width + k] as number) - taken;
      // Where a covariate varies at one failure time only all is taken, but for rounding.
      const spent = row === column && !(left > 1e-12 * (squared[j * width + k] as number));
      variance[row * tested.length + column] = spent ? 0 : left;
    }),
  );
  const score = tiltScore(problem, sums, g);
  return { tilt: Float64Array.from(tested, (j) => score[j] as number), variance, leaning };
}

/** Σ over event times of g · variance of the covariates in the risk set, as many times as there are events. */
function weightedInformation(problem: CoxProblem, sums: RiskSums, g: Float64Array): Float64Array {
  const { sets, width, table, patterns } = problem;
  const times = (values: Float64Array) => values.map((value, time) => value * (g[time] as number));
  const expected = expectedByPattern(problem, cumulate(sets.firstTime, times(sums.hazard)), times(sums.spared));
  for (let k = 0; k < patterns; k++) expected[k] = (expected[k] as number) * (sums.ratio[k] as number);
  const information = new Float64Array(width * width);
  addWeightedProducts(information, table, width, patterns, expected, 1);
  subtractMeans(information, problem, sums, times(sums.outer), times(sums.cross), times(sums.inner));
  return mirrorLower(information, width);
}

/** Σ over events of g · weight · (x − mean). */
function tiltScore({ sets, width, table, pattern, weight }: CoxProblem, sums: RiskSums, g: Float64Array): Float64Array {
  const score = new Float64Array(width);
  for (let time = 0; time < g.length; time++) {
    const start = sets.firstPosition[time] as number;
    for (let j = 0; j < width; j++) {
      let sum = -(sums.hazard[time] as number) * (sums.first[time * width + j] as number);
      if (sums.spared[time] !== 0) sum += (sums.spared[time] as number) * (sums.deathFirst[time * width + j] as number);
      for (let position = start; position < start + (sets.deaths[time] as number); position++)
        sum +=
          (weight ? (weight[position] as number) : 1) * (table[(pattern[position] as number) * width + j] as number);
      score[j] = (score[j] as number) + (g[time] as number) * sum;
    }
  }
  return score;
}
