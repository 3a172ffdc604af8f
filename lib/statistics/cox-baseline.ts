import { coxAtFit, type AtFitOptions, type CoxAtFit, type FittedCox } from './cox-at-fit.ts';
import { survivalLimits, toCurveInterval, type CurveInterval } from './confidence-limits.ts';
import { toLevel } from './interval.ts';
import { StatisticsError } from './statistics-error.ts';
import type { SurvivalData } from './survival-data.ts';

export interface BaselineOptions extends AtFitOptions {
  /** Covariate values to draw the curve at, by term (`name`, or `name=level` as 0 or 1); default zero and reference levels. */
  readonly at?: Readonly<Record<string, number>>;
  readonly level?: number;
  /** Scale on which the limits are symmetric, default `log-log`. */
  readonly interval?: CurveInterval;
}

export interface BaselineCurve {
  readonly stratum: string;
  /** Event times, ascending; the estimate holds from each on, and is zero before the first. */
  readonly time: Float64Array;
  /** Rows at risk just before each time. */
  readonly atRisk: Float64Array;
  /** Weight failing at each time. */
  readonly events: Float64Array;
  readonly cumulativeHazard: Float64Array;
  readonly survival: Float64Array;
  /** Of the cumulative hazard: its own error and that of the coefficients. */
  readonly standardError: Float64Array;
  /** Limits of the survival. */
  readonly lower: Float64Array;
  readonly upper: Float64Array;
}

/**
 * Cumulative hazard and survival by stratum at given covariate values, under a fit; increments by
 * the fit's own ties (Breslow's or Efron's).
 *
 * @throws StatisticsError for bad columns, a term of the fit that the data lack, an unknown term in `at`.
 * Source: Therneau & Grambsch 2000 §10.2 (eq. 10.9 for the error). Outside check: baselines and
 * profile curves of the reference cases cox-veteran, cox-nickel-lefttrunc, cox-ovarian, 1e-7.
 */
export function coxBaseline(data: SurvivalData, fit: FittedCox, options: BaselineOptions = {}): BaselineCurve[] {
  const level = toLevel(options.level);
  const interval = toCurveInterval(options.interval);
  const at = coxAtFit(data, fit, options);
  const { sets, scale, centre } = at.problem;
  const values = options.at ?? {};
  for (const term of Object.keys(values))
    if (!fit.terms.includes(term)) throw new StatisticsError('at', `names ${term}, which is no term of the fit`);
  const x = Float64Array.from(at.columns, (term, j) => {
    const value = values[fit.terms[term] as string] ?? 0;
    return (value - (centre[j] as number)) / (scale[j] as number);
  });
  const predictor = x.reduce((sum, value, j) => sum + value * (at.beta[j] as number), 0);
  return sets.strata.map((stratum, index) => {
    const curve = curveOf(at, fit, index, x, Math.exp(predictor));
    const survival = curve.cumulativeHazard.map((value) => Math.exp(-value));
    const error = survival.map((value, k) => value * (curve.standardError[k] as number));
    return { stratum, ...curve, survival, ...survivalLimits(survival, error, curve.atRisk, interval, level) };
  });
}

function curveOf(
  at: CoxAtFit,
  fit: FittedCox,
  index: number,
  x: Float64Array,
  ratio: number,
): Omit<BaselineCurve, 'stratum' | 'survival' | 'lower' | 'upper'> {
  const { problem, sums } = at;
  const { sets, width, events } = problem;
  const [from, to] = [sets.firstTime[index] as number, sets.firstTime[index + 1] as number];
  const cumulativeHazard = new Float64Array(to - from);
  const standardError = new Float64Array(to - from);
  // ∫ (x − mean) dH: how the hazard at x leans on each coefficient.
  const lean = new Float64Array(width);
  let [hazard, variance] = [0, 0];
  for (let time = from; time < to; time++) {
    hazard += sums.hazard[time] as number;
    variance += sums.outer[time] as number;
    for (let j = 0, base = time * width; j < width; j++) {
      let mean = (sums.outer[time] as number) * (sums.first[base + j] as number);
      if (sums.cross[time] !== 0) mean -= (sums.cross[time] as number) * (sums.deathFirst[base + j] as number);
      lean[j] = (lean[j] as number) + (x[j] as number) * (sums.hazard[time] as number) - mean;
    }
    cumulativeHazard[time - from] = ratio * hazard;
    standardError[time - from] = ratio * Math.sqrt(variance + leanVariance(at, fit, lean));
  }
  return {
    time: sets.time.slice(from, to),
    atRisk: rowsAtRisk(at, from, to),
    events: events.weight.slice(from, to),
    cumulativeHazard,
    standardError,
  };
}

function rowsAtRisk({ problem: { sets } }: CoxAtFit, from: number, to: number): Float64Array {
  const atRisk = new Float64Array(to - from);
  let running = 0;
  for (let time = to - 1; time >= from; time--) {
    running += (sets.firstPosition[time + 1] as number) - (sets.firstPosition[time] as number);
    running -= (sets.firstLate[time + 1] as number) - (sets.firstLate[time] as number);
    atRisk[time - from] = running;
  }
  return atRisk;
}

function leanVariance({ columns, problem: { scale } }: CoxAtFit, fit: FittedCox, lean: Float64Array): number {
  let sum = 0;
  for (let j = 0; j < lean.length; j++)
    for (let k = 0; k < lean.length; k++) {
      const covariance = fit.covariance[(columns[j] as number) * fit.terms.length + (columns[k] as number)] as number;
      if (Number.isFinite(covariance))
        sum += covariance * (lean[j] as number) * (scale[j] as number) * (lean[k] as number) * (scale[k] as number);
    }
  return sum;
}
