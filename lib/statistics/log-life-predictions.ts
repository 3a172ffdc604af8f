import { toFraction, toTime } from './life-arguments.ts';
import type { LifeRows } from './life-rows.ts';
import { LOG_LIFE_DISTRIBUTIONS, type LogLifeDistribution } from './log-life-distribution.ts';
import type { Maximum } from './numeric/maximise.ts';
import { profileLogLife, type Limits, type LogLifeProfile } from './profile-log-life.ts';
import { StatisticsError } from './statistics-error.ts';
import { LOG_SCALE, waldEstimate, type Estimate, type WorkingParameters } from './working-estimates.ts';

export interface LogLifePredictions {
  /** Life by which a fraction has failed (0.1 is B10), limits formed on the log scale. */
  lifeAt(fraction: number): Estimate;
  /** Share surviving beyond `time`, limits formed on the standardised log-time scale, so inside 0 to 1. */
  survivalAt(time: number): Estimate;
  /** Likelihood-ratio limits at the same level (model-based). */
  readonly likelihoodRatio: {
    /** Limits of the Weibull shape or the lognormal scale; a StatisticsError for exponential, which has neither. */
    shape(): Limits;
    lifeAt(fraction: number): Limits;
    survivalAt(time: number): Limits;
  };
}

/** Estimates at the maximum `top` of the rows; see LogLifePredictions. */
export function logLifePredictions(
  distribution: LogLifeDistribution,
  working: WorkingParameters,
  level: number,
  rows: LifeRows,
  top: Maximum,
): LogLifePredictions {
  const location = working.values[0] as number;
  const spread = working.values.length > 1 ? Math.exp(working.values[1] as number) : 1;
  const gradient = (first: number, second: number) => (working.values.length > 1 ? [first, second] : [first]);
  const survival = { to: (z: number) => distribution.survival(z), slope: (z: number) => distribution.density(z) };
  let profile: LogLifeProfile | null = null;
  const profiled = () => (profile ??= profileLogLife(rows, distribution, top, level));
  return {
    lifeAt(fraction) {
      const q = distribution.quantile(toFraction(fraction));
      return waldEstimate(working, level, location + spread * q, gradient(1, spread * q), LOG_SCALE);
    },
    survivalAt(time) {
      const z = (Math.log(toTime(time)) - location) / spread;
      if (z === -Infinity) return { value: 1, standardError: 0, lower: 1, upper: 1 };
      return waldEstimate(working, level, z, gradient(-1 / spread, -z), survival);
    },
    likelihoodRatio: {
      shape() {
        if (distribution.fixedAlpha !== null) throw new StatisticsError('distribution', 'has no shape to bound');
        const { lower, upper } = profiled().alpha();
        return distribution === LOG_LIFE_DISTRIBUTIONS.weibull
          ? { lower, upper }
          : { lower: 1 / upper, upper: 1 / lower };
      },
      lifeAt(fraction) {
        const { lower, upper } = profiled().logLife(distribution.quantile(toFraction(fraction)));
        return { lower: Math.exp(lower + rows.logUnit), upper: Math.exp(upper + rows.logUnit) };
      },
      survivalAt(time) {
        if (toTime(time) === 0) return { lower: 1, upper: 1 };
        const { lower, upper } = profiled().standardised(Math.log(time) - rows.logUnit);
        return { lower: distribution.survival(upper), upper: distribution.survival(lower) };
      },
    },
  };
}
