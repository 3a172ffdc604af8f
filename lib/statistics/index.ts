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
export { heterogeneityTest } from './heterogeneity-test.ts';
export type { HeterogeneityTest } from './heterogeneity-test.ts';
export { stratifiedDifference } from './stratified-difference.ts';
export type { StratifiedData, StratifiedDifference } from './stratified-difference.ts';
export { rateRatio } from './rate-ratio.ts';
export type { RateRatio, RateRatioData, RateRatioOptions } from './rate-ratio.ts';
export type { ExactRateRatio } from './rate-ratio-exact.ts';
export type { RobustRatio } from './rate-ratio-robust.ts';
export { fitLife } from './fit-life.ts';
export type { FitLifeOptions } from './fit-life.ts';
export type { LifeFit } from './fit-log-life.ts';
export type { MixtureFit } from './fit-life-mixture.ts';
export type { MixtureParameters } from './mixture-estimates.ts';
export type { ExitData, IntervalData, LifeData } from './life-rows.ts';
export type { Estimate } from './working-estimates.ts';
export { adjustPValues } from './adjust-p-values.ts';
export { eValue } from './e-value.ts';
export type { EValue, EValueOptions } from './e-value.ts';
export { detectableRatio, requiredEvents } from './required-events.ts';
export type { StudyDesign } from './required-events.ts';
export { shrinkRates } from './shrink-rates.ts';
export type { ShrunkenRates } from './shrink-rates.ts';
export type { GammaPrior } from './shrink-rates-prior.ts';
export { standardizedRatio } from './standardized-ratio.ts';
export type { StandardizedRatio, StandardizedRatioData } from './standardized-ratio.ts';
export { cusum } from './cusum.ts';
export type { Cusum, CusumData, CusumOptions } from './cusum.ts';
export type { CurveInterval, TotalInterval } from './confidence-limits.ts';
export { kaplanMeier } from './kaplan-meier.ts';
export type { KaplanMeierOptions, SurvivalCurve } from './kaplan-meier.ts';
export { quantile } from './quantile.ts';
export type { Quantile, QuantileOptions } from './quantile.ts';
export { restrictedMean, restrictedMeanDifference } from './restricted-mean.ts';
export type { RestrictedMean, RestrictedMeanOptions } from './restricted-mean.ts';
export { survivalAt } from './survival-at.ts';
export type { SurvivalPoint } from './survival-at.ts';
export { logRank } from './log-rank.ts';
export type { LogRank, LogRankOptions, RobustLogRank, TrendTest } from './log-rank.ts';
export type { ChiSquareTest, ClusterCovariance } from './score-test.ts';
export { weibullRegression } from './weibull-regression.ts';
export type { WeibullRegression, WeibullRegressionOptions } from './weibull-regression.ts';
export { poissonRegression } from './poisson-regression.ts';
export type { PoissonOptions, PoissonRegression } from './poisson-regression.ts';
export type { CountData, ExponentialLives, ExposedCounts } from './poisson-data.ts';
export type { CountTests } from './poisson-tests.ts';
export type { ExpectedData } from './poisson-expected.ts';
export { powerLawProcess } from './power-law-process.ts';
export type { PowerLawProcess } from './power-law-process.ts';
export type { PowerLawData } from './power-law-systems.ts';
export { nelsonAalen } from './nelson-aalen.ts';
export type { CumulativeHazardCurve, NelsonAalenOptions } from './nelson-aalen.ts';
export { cumulativeIncidence } from './cumulative-incidence.ts';
export type { CumulativeIncidenceOptions } from './cumulative-incidence.ts';
export type { IncidenceCurve } from './incidence-curve.ts';
export { grayTest } from './gray-test.ts';
export type { GrayTest, GrayTestOptions } from './gray-test.ts';
export { turnbull } from './turnbull.ts';
export type { Turnbull, TurnbullOptions } from './turnbull.ts';
export { meanCumulativeDifference, meanCumulativeFunction } from './mean-cumulative-function.ts';
export type {
  MeanCumulativeCurve,
  MeanCumulativeDifference,
  MeanCumulativeOptions,
} from './mean-cumulative-function.ts';
export type { RecurrentData } from './recurrent-rows.ts';
export { replacementInterval } from './replacement-interval.ts';
export type { ReplacementInterval, ReplacementOptions } from './replacement-interval.ts';
export { drawnLimits, forecastFailures } from './forecast-failures.ts';
export type { Forecast, ForecastOptions, RunningUnits } from './forecast-failures.ts';
export { drawnShare } from './drawn-share.ts';
export { drawParameters } from './parameter-draws.ts';
export type { FittedLife } from './parameter-draws.ts';
export { fittedHazard, sharedHazardVariance, withSharedHazard } from './shared-hazard.ts';
export { createRandom } from './numeric/random.ts';
export type { Random } from './numeric/random.ts';
export { detectionDelay } from './detection-delay.ts';
export type { DetectionDelay, DetectionEstimate } from './detection-delay.ts';
export type { DetectionData } from './detection-pieces.ts';
export { coxRegression } from './cox-regression.ts';
export type { CoxOptions, CoxRegression } from './cox-regression.ts';
export type { CoxRatios } from './cox-ratios.ts';
export type { CoxTests } from './cox-estimate.ts';
export type { Concordance } from './cox-concordance.ts';
export { coxRiskSets } from './cox-risk-sets.ts';
export type { RiskSets } from './cox-risk-sets.ts';
export { coxBaseline } from './cox-baseline.ts';
export type { BaselineCurve, BaselineOptions } from './cox-baseline.ts';
export { coxExpected, coxResiduals } from './cox-residuals.ts';
export type { CoxExpected, CoxResiduals } from './cox-residuals.ts';
export type { FittedCox } from './cox-at-fit.ts';
export { observedExpected } from './observed-expected.ts';
export type { ObservedExpected, ObservedExpectedData, ObservedExpectedOptions } from './observed-expected.ts';
export type { ObservedExpectedLimits } from './observed-expected-limits.ts';
export { observedExpectedChange } from './observed-expected-change.ts';
export type { ObservedExpectedChange } from './observed-expected-change.ts';
export { covariateByPiece, splitTime } from './split-time.ts';
export type { SplitTime } from './split-time.ts';
export { coxTimeSplit } from './cox-time-split.ts';
export type { CoxTimeSplit, CoxTimeSplitOptions, SplitRatio, SplitTerm } from './cox-time-split.ts';
export { attributableFraction } from './attributable-fraction.ts';
export type { AttributableFraction, AttributableOptions, ExposedFailures } from './attributable-fraction.ts';
export { attributableFractionOfFit } from './attributable-fraction-of-fit.ts';
export type {
  AttributableFractionOfFit,
  AttributableOfFitOptions,
  FittedFailures,
  FittedRatios,
} from './attributable-fraction-of-fit.ts';
export { excessShare } from './excess-share.ts';
export type { ExcessShare, ExcessShareOptions } from './excess-share.ts';
export { proportionalHazardsTest } from './proportional-hazards-test.ts';
export type {
  ProportionalHazardsOptions,
  ProportionalHazardsStatistics,
  ProportionalHazardsTest,
} from './proportional-hazards-test.ts';
export type { RegressionWarning, TestResult } from './regression-result.ts';
export { standardisingWeights } from './standardising-weights.ts';
export type { StandardisingData, StandardisingWeights } from './standardising-weights.ts';
