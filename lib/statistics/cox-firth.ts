import { cholesky, choleskyFailed, invertCholesky, logDeterminant } from './numeric/cholesky.ts';
import { evaluateCox } from './cox-likelihood.ts';
import type { Slope } from './newton-climb.ts';
import type { CoxProblem } from './cox-problem.ts';
import { factorAt, riskSumsFor, type RiskSums } from './cox-sweep.ts';

/**
 * Firth's penalised log partial likelihood, log L + ½ log |information|, and its score
 * (Firth 1993, Biometrika 80:27; for proportional hazards Heinze & Schemper 2001, Biometrics
 * 57:114). Its maximum is finite where the plain likelihood is monotone, and less biased where
 * events are few. Its curvature is taken from differences of the score: by the information alone,
 * which knows nothing of the penalty, steps can overshoot by as much again and never settle.
 */
export function firthEvaluator(problem: CoxProblem, sums: RiskSums): (beta: Float64Array) => Slope {
  // The sums are read again after the climb: differences need room of their own.
  let spare: RiskSums | null = null;
  return (beta) => ({
    ...penalised(problem, beta, sums),
    curvature: () => scoreDifferences((at) => penalised(problem, at, (spare ??= riskSumsFor(problem))).score, beta),
  });
}

function penalised(problem: CoxProblem, beta: Float64Array, sums: RiskSums): Slope {
  const { width } = problem;
  const { value, score, information: curvature } = evaluateCox(problem, beta, sums);
  const information = curvature();
  const factor = cholesky(information, width, 1e-14);
  if (choleskyFailed(factor)) return { value: -Infinity, score, information: () => information };
  const bend = thirdMoments(problem, sums, invertCholesky(factor));
  return {
    value: value + logDeterminant(factor) / 2,
    score: score.map((slope, j) => slope + (bend[j] as number) / 2),
    information: () => information,
  };
}

/** Coefficients are log ratios across a whole range: of order one, whatever the units. */
const STEP = 1e-5;

/** Minus the derivatives of a score by central differences, made symmetric. */
function scoreDifferences(scoreAt: (beta: Float64Array) => Float64Array, beta: Float64Array): Float64Array {
  const width = beta.length;
  const rows = Array.from(beta, (_, j) => {
    const [up, down] = [STEP, -STEP].map((step) => scoreAt(beta.map((value, k) => (k === j ? value + step : value))));
    return (up as Float64Array).map((slope, k) => ((down?.[k] as number) - slope) / (2 * STEP));
  });
  return Float64Array.from({ length: width * width }, (_, at) => {
    const [row, column] = [Math.floor(at / width), at % width];
    return ((rows[row]?.[column] as number) + (rows[column]?.[row] as number)) / 2;
  });
}

/** Running sums beyond those of `RiskSums`: Σ risk·x xᵀ, Σ risk·q, Σ risk·q·x with q = xᵀVx. */
interface HigherSums {
  readonly second: Float64Array;
  readonly quadratic: Float64Array;
  readonly weighted: Float64Array;
}

const higherSums = (width: number): HigherSums => ({
  second: new Float64Array(width * width),
  quadratic: new Float64Array(1),
  weighted: new Float64Array(width),
});

/**
 * Trace of V · ∂information/∂β for each coefficient: over the steps of every tie, the mean over the
 * risk set of (x − x̄)(x − x̄)ᵀV(x − x̄).
 */
function thirdMoments(problem: CoxProblem, sums: RiskSums, inverse: Float64Array): Float64Array {
  const { sets, width, ties } = problem;
  const result = new Float64Array(width);
  for (let stratum = 0; stratum < sets.strata.length; stratum++) {
    const all = higherSums(width);
    const start = sets.firstTime[stratum] as number;
    for (let time = (sets.firstTime[stratum + 1] as number) - 1; time >= start; time--) {
      const [from, to] = [sets.firstPosition[time] as number, sets.firstPosition[time + 1] as number];
      const deaths = sets.deaths[time] as number;
      const dying = higherSums(width);
      for (let position = from; position < to; position++) {
        join(problem, sums, inverse, position, 1, all);
        if (position < from + deaths) join(problem, sums, inverse, position, 1, dying);
      }
      for (let index = sets.firstLate[time] as number; index < (sets.firstLate[time + 1] as number); index++)
        join(problem, sums, inverse, sets.late[index] as number, -1, all);
      const steps = ties === 'efron' ? deaths : 1;
      for (let k = 0; k < steps; k++)
        addStep(
          problem,
          sums,
          inverse,
          time,
          k / steps,
          (problem.events.weight[time] as number) / steps,
          all,
          dying,
          result,
        );
    }
  }
  return result;
}

function join(
  problem: CoxProblem,
  sums: RiskSums,
  inverse: Float64Array,
  position: number,
  sign: number,
  into: HigherSums,
): void {
  const { width, table, pattern } = problem;
  const k = pattern[position] as number;
  const base = k * width;
  const risk = sign * factorAt(problem, position) * (sums.ratio[k] as number);
  let q = 0;
  for (let row = 0; row < width; row++)
    for (let column = 0; column < width; column++) {
      const product = (table[base + row] as number) * (table[base + column] as number);
      q += product * (inverse[row * width + column] as number);
      into.second[row * width + column] = (into.second[row * width + column] as number) + risk * product;
    }
  into.quadratic[0] = (into.quadratic[0] as number) + risk * q;
  for (let j = 0; j < width; j++)
    into.weighted[j] = (into.weighted[j] as number) + risk * q * (table[base + j] as number);
}

function addStep(
  { width }: CoxProblem,
  sums: RiskSums,
  inverse: Float64Array,
  time: number,
  share: number,
  step: number,
  all: HigherSums,
  dying: HigherSums,
  result: Float64Array,
): void {
  const total = (sums.total[time] as number) - share * (sums.deathTotal[time] as number);
  const part = (whole: Float64Array, gone: Float64Array, at: number) =>
    ((whole[at] as number) - (share === 0 ? 0 : share * (gone[at] as number))) / total;
  const mean = Array.from({ length: width }, (_, j) => part(sums.first, sums.deathFirst, time * width + j));
  const turned = mean.map((_, row) =>
    mean.reduce((sum, value, column) => sum + (inverse[row * width + column] as number) * value, 0),
  );
  const quadratic = part(all.quadratic, dying.quadratic, 0);
  const meanSquared = mean.reduce((sum, value, j) => sum + value * (turned[j] as number), 0);
  for (let row = 0; row < width; row++) {
    let secondTurned = 0;
    for (let column = 0; column < width; column++)
      secondTurned += part(all.second, dying.second, row * width + column) * (turned[column] as number);
    const centre = mean[row] as number;
    const third =
      part(all.weighted, dying.weighted, row) - centre * quadratic - 2 * (secondTurned - centre * meanSquared);
    result[row] = (result[row] as number) + step * third;
  }
}
