import { poissonLimits, toRateRows } from './event-rate.ts';
import { toLevel } from './interval.ts';
import { gammaQuantile } from './numeric/incomplete-gamma.ts';
import { averagedRates, type PosteriorColumns } from './shrink-rates-averaged.ts';
import { fitGammaPrior, type GammaPrior } from './shrink-rates-prior.ts';
import { StatisticsError } from './statistics-error.ts';
import type { NumberColumn } from './survival-data.ts';

export interface ShrunkenRates {
  readonly level: number;
  /** The pooled rate Σ events / Σ exposure. */
  readonly pooled: number;
  /** Rates of the units taken as drawn from Gamma(shape, rate); null where chance alone explains the spread. */
  readonly prior: GammaPrior | null;
  /** False at the boundary: no more spread than chance gives, every unit gets the pooled rate and its exact limits. */
  readonly heterogeneous: boolean;
  /** Raw rate per unit; null without exposure. */
  readonly raw: readonly (number | null)[];
  /** Posterior mean per unit, (events + shape)/(exposure + rate), with the central posterior interval. */
  readonly value: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /**
   * The same without taking the fitted prior as known: the honest interval with few units. Null for more than
   * 200 units, where the two agree, and without events.
   */
  readonly averaged: PosteriorColumns | null;
  readonly reason: string | null;
}

/**
 * Rates of many units (shops, vehicles) drawn towards their common mean, the less a unit has seen the more: gamma–
 * Poisson empirical Bayes with the prior fitted by marginal maximum likelihood.
 *
 * `lower` and `upper` take the prior as known, as the method does. Under simulation such 95 % intervals hold 93 % of
 * the true rates of 40 units and under 80 % of those of 5; and where no spread is fitted all units look alike.
 * `averaged` mends both and is the one to show. It is for ranking without being fooled by small denominators, not for
 * testing a unit.
 *
 * Source: Clayton & Kaldor 1987, Biometrics 43:671, §3; Robbins 1956; `averaged`: Christiansen & Morris
 * 1997, JASA 92:618. Outside check: reference cases eb-*; coverage under
 * simulation.
 *
 * @throws StatisticsError for counts that are not counts, negative exposure, no exposure at all, or a level outside
 * (0, 1).
 */
export function shrinkRates(
  data: { readonly events: NumberColumn; readonly exposure: NumberColumn },
  options: { readonly level?: number } = {},
): ShrunkenRates {
  const level = toLevel(options.level);
  const tail = (1 - level) / 2;
  const { events, exposure } = toRateRows(data);
  const raw = Array.from(events, (count, unit) =>
    (exposure[unit] as number) > 0 ? count / (exposure[unit] as number) : null,
  );
  const total = events.reduce((sum, count) => sum + count, 0);
  const watched = exposure.reduce((sum, value) => sum + value, 0);
  if (watched === 0) throw new StatisticsError('exposure', 'is zero throughout');
  events.forEach((count, unit) => {
    if (count > 0 && exposure[unit] === 0)
      throw new StatisticsError('exposure', 'is zero although there are events', unit);
  });
  const pooled = total / watched;
  const prior = total > 0 ? fitGammaPrior(events, exposure) : null;
  const averaged = total > 0 && events.length <= 200 ? averagedRates(events, exposure, tail) : null;
  if (prior === null) {
    const limits = poissonLimits(total, tail).map((limit) => limit / watched);
    const [value, lower, upper] = [pooled, ...limits].map((one) => new Float64Array(events.length).fill(one));
    const reason = total > 0 ? 'no more spread between units than chance gives' : 'no events';
    return {
      level,
      pooled,
      prior,
      heterogeneous: false,
      raw,
      ...({ value, lower, upper } as PosteriorColumns),
      averaged,
      reason,
    };
  }
  const posterior = (quantile: number | null) =>
    Float64Array.from(events, (count, unit) => {
      const [shape, rate] = [count + prior.shape, (exposure[unit] as number) + prior.rate];
      return quantile === null ? shape / rate : gammaQuantile(quantile, shape) / rate;
    });
  const columns: PosteriorColumns = { value: posterior(null), lower: posterior(tail), upper: posterior(1 - tail) };
  return { level, pooled, prior, heterogeneous: true, raw, ...columns, averaged, reason: null };
}
