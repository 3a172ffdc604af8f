import { coxAtFit, type AtFitOptions, type CoxAtFit, type FittedCox } from './cox-at-fit.ts';
import { cumulate } from './cox-likelihood.ts';
import { clusterScores } from './cox-score.ts';
import { factorAt } from './cox-sweep.ts';
import type { SurvivalData } from './survival-data.ts';

export interface CoxExpected {
  /** Events expected of each row over its time at risk, [Λ(exit) − Λ(entry)] · ratio, its weight left out. */
  readonly expected: Float64Array;
  /** Event − expected: martingale residuals. */
  readonly martingale: Float64Array;
}

export interface CoxResiduals extends CoxExpected {
  /** Score residuals times the row's weight, row-major rows × terms; each column adds up to nothing at the estimate. */
  readonly score: Float64Array;
  /** Change of each coefficient owed to the row (infinitesimal jackknife), row-major rows × terms. */
  readonly dfbeta: Float64Array;
}

/**
 * Events expected under a fit, row by row: for observed-against-expected by shop, say, with the
 * shop terms in the fit and predicted `without`. Weighted, they add up to the events observed
 * (within each stratum): under Efron's ties each of the tied is spared its part, as in the fit.
 *
 * @throws StatisticsError for bad columns, or a term of the fit that the data lack.
 * Source: Therneau & Grambsch 2000 §4.2. Outside check: residuals of R survival; laws.
 */
export function coxExpected(data: SurvivalData, fit: FittedCox, options: AtFitOptions = {}): CoxExpected {
  return expectedAt(coxAtFit(data, fit, options));
}

/** Events expected of each row at risk sums already worked out. */
export function expectedAt({ survival, problem, sums }: CoxAtFit): CoxExpected {
  const { sets, pattern, weight } = problem;
  const hazard = cumulate(sets.firstTime, sums.hazard);
  const expected = new Float64Array(survival.rows);
  for (let time = 0; time < hazard.length; time++) {
    const start = sets.firstPosition[time] as number;
    const alive = start + (sets.deaths[time] as number);
    for (let position = start; position < (sets.firstPosition[time + 1] as number); position++) {
      const entry = sets.entryTime[position] as number;
      const before = entry < 0 ? 0 : (hazard[entry] as number);
      const spared = position < alive ? (sums.spared[time] as number) : 0;
      const ratio =
        ((sums.ratio[pattern[position] as number] as number) * factorAt(problem, position)) /
        (weight ? (weight[position] as number) : 1);
      expected[sets.row[position] as number] = ratio * ((hazard[time] as number) - before - spared);
    }
  }
  const martingale = expected.map((value, row) => (survival.event[row] as number) - value);
  return { expected, martingale };
}

/**
 * Residuals of a fit by row.
 *
 * @throws StatisticsError for bad columns, or a term of the fit that the data lack.
 * Source: Therneau & Grambsch 2000 §4.2 (martingale), §4.6 (score), §7.1 (dfbeta).
 * Outside check: residuals of R survival (in the tests, typed in); laws.
 */
export function coxResiduals(
  data: SurvivalData,
  fit: FittedCox,
  options: Omit<AtFitOptions, 'without'> = {},
): CoxResiduals {
  const at = coxAtFit(data, fit, options);
  const { problem, survival } = at;
  const { width, scale } = problem;
  const score = clusterScores(problem, at.sums, rowNumbers(survival.rows), survival.rows);
  for (let index = 0; index < score.length; index++)
    score[index] = (score[index] as number) * (scale[index % width] as number);
  const dfbeta = new Float64Array(score.length);
  for (let from = 0; from < score.length; from += width)
    for (let j = 0; j < width; j++) {
      let sum = 0;
      for (let k = 0; k < width; k++) {
        const covariance = fit.covariance[j * width + k] as number;
        if (Number.isFinite(covariance)) sum += covariance * (score[from + k] as number);
      }
      dfbeta[from + j] = sum;
    }
  return { ...expectedAt(at), score, dfbeta };
}

const rowNumbers = (rows: number): Int32Array => Int32Array.from({ length: rows }, (_, row) => row);
