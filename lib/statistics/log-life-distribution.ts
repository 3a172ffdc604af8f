import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import { extremeValueTerms, normalTerms, type LogLifeTerms } from './log-life-terms.ts';
import { logNormalDensity, standardNormalQuantile } from './numeric/normal.ts';

export type LogLifeName = 'weibull' | 'lognormal' | 'exponential';

/** A life whose logarithm is location + spread · W; W is standard extreme value or normal. */
export interface LogLifeDistribution {
  readonly terms: LogLifeTerms;
  /** α = 1 / spread when it is not estimated. */
  readonly fixedAlpha: number | null;
  /** P(W > z) and the density of W. */
  survival(z: number): number;
  density(z: number): number;
  /** z with P(W ≤ z) = fraction. */
  quantile(fraction: number): number;
  /** W's standard deviation, for start values. */
  readonly spread: number;
}

const extremeValue = {
  terms: extremeValueTerms,
  survival: (z: number) => Math.exp(-Math.exp(z)),
  density: (z: number) => Math.exp(z - Math.exp(z)),
  quantile: (fraction: number) => Math.log(-Math.log1p(-fraction)),
  spread: Math.PI / Math.sqrt(6),
};

export const LOG_LIFE_DISTRIBUTIONS: Readonly<Record<LogLifeName, LogLifeDistribution>> = {
  weibull: { ...extremeValue, fixedAlpha: null },
  exponential: { ...extremeValue, fixedAlpha: 1 },
  lognormal: {
    terms: normalTerms,
    fixedAlpha: null,
    survival: (z) => normalCdf(-z, 0, 1),
    density: (z) => Math.exp(logNormalDensity(z)),
    quantile: standardNormalQuantile,
    spread: 1,
  },
};
