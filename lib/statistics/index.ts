/** The public face of the statistics library: numbers in, numbers out. */
export { StatisticsError } from './statistics-error.ts';
export type { Category, CategoryColumn, Covariates, NumberColumn, SurvivalData } from './survival-data.ts';
export { eventRate } from './event-rate.ts';
export type { EventRate, EventRateData, EventRateOptions, RobustRate } from './event-rate.ts';
export { fisherExact } from './fisher-exact.ts';
export type { FisherExact } from './fisher-exact.ts';
export type { Interval } from './interval.ts';
export { proportion, proportionDifference } from './proportion.ts';
export type { Proportion, ProportionDifference, ProportionOptions } from './proportion.ts';
export { rateRatio } from './rate-ratio.ts';
export type { RateRatio, RateRatioData, RateRatioOptions } from './rate-ratio.ts';
export type { ExactRateRatio } from './rate-ratio-exact.ts';
export type { RobustRatio } from './rate-ratio-strata.ts';
export { fitLife } from './fit-life.ts';
export type { FitLifeOptions, LifeFit } from './fit-life.ts';
export type { ExitData, IntervalData, LifeData } from './life-rows.ts';
export type { Estimate } from './working-estimates.ts';
