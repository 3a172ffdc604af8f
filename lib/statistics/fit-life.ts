import { fitMixture, type MixtureFit } from './fit-life-mixture.ts';
import { fitLogLife, type LifeFit } from './fit-log-life.ts';
import { toLevel } from './interval.ts';
import type { LifeName } from './life-model.ts';
import type { LifeData } from './life-rows.ts';
import { LOG_LIFE_DISTRIBUTIONS, type LogLifeName } from './log-life-distribution.ts';
import { toLifeRows } from './read-life-rows.ts';
import { requireMaximum } from './require-maximum.ts';
import { StatisticsError } from './statistics-error.ts';

export interface FitLifeOptions<D extends string> {
  readonly distribution: D;
  /** Confidence level of every interval, default 0.95. */
  readonly level?: number;
}

/**
 * Maximum-likelihood life distribution from exact, right-, left- and interval-censored lives,
 * left-truncated by `entry` (a life counts from entry on) and weighted (weights act as repeats).
 *
 * @param data `{ exit, event, entry?, weight?, cluster? }` with event 0 or 1, or
 *   `{ lower, upper, entry?, weight?, cluster? }` (see IntervalData); columns of one length, times in one unit.
 * @param options `distribution`: 'weibull', 'lognormal', 'exponential', or 'weibull-mixture' of an early
 *   and a wear-out part, which says in `supported` whether the data call for two parts (see MixtureFit).
 * @returns estimates in the unit of the data. With `cluster` every estimate carries `robust` limits
 *   from the sandwich covariance (scores summed within clusters, no small-sample factor) beside the model-based ones.
 *   Those of the Weibull shape run a little short where few clusters share much: of simulated fleets with four wheel
 *   ends a vehicle (Kendall's tau 0.4) its 95 % limits hold 92 % with 120 vehicles and 95 % with 300, while those of
 *   the scale and of B10 hold 93 to 95 % with either; leaving out vehicles in turn (a jackknife) does no better.
 * @throws StatisticsError on bad columns, no failures, or lives no maximum exists for (one life fits
 *   every row, all failed). A fit that does not converge comes back with `converged` false and a warning.
 * Source: Meeker & Escobar, Statistical Methods for Reliability Data (1998), ch. 8 and 11; IEC 61649.
 * Concave form of the likelihood: Burridge 1981. Outside check: R survival::survreg and a separate
 * maximisation for left truncation, tests/reference cases par-*, 1e-6.
 */
export function fitLife(data: LifeData, options: FitLifeOptions<'weibull-mixture'>): MixtureFit;
export function fitLife<D extends LogLifeName>(data: LifeData, options: FitLifeOptions<D>): LifeFit<D>;
export function fitLife(data: LifeData, options: FitLifeOptions<LifeName>): LifeFit | MixtureFit {
  const level = toLevel(options.level);
  const name = options.distribution;
  if (name !== 'weibull-mixture' && !Object.hasOwn(LOG_LIFE_DISTRIBUTIONS, name))
    throw new StatisticsError('distribution', `${name as string} is not one of those offered`);
  const rows = toLifeRows(data);
  requireMaximum(rows, name !== 'exponential');
  return name === 'weibull-mixture' ? fitMixture(rows, level) : fitLogLife(name, rows, level);
}
