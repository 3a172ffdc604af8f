import { fitMixture, type MixtureFit } from './fit-life-mixture.ts';
import { toLevel } from './interval.ts';
import { toFraction, toTime } from './life-arguments.ts';
import { requireMaximum, toLifeRows, type LifeData, type LifeRows } from './life-rows.ts';
import type { LifeName } from './life-model.ts';
import { LOG_LIFE_DISTRIBUTIONS, type LogLifeDistribution, type LogLifeName } from './log-life-distribution.ts';
import { clusterMeat, LEAST_ALPHA, maximiseLogLife } from './maximise-log-life.ts';
import { invertCholesky, sandwich } from './numeric/cholesky.ts';
import type { Maximum } from './numeric/maximise.ts';
import { profileLogLife, type Limits, type LogLifeProfile } from './profile-log-life.ts';
import { StatisticsError } from './statistics-error.ts';
import {
  LOG_SCALE,
  PLAIN_SCALE,
  transformCovariance,
  waldEstimate,
  type Estimate,
  type WorkingParameters,
} from './working-estimates.ts';

interface ParametersOf {
  weibull: { readonly shape: Estimate; readonly scale: Estimate };
  lognormal: { readonly location: Estimate; readonly scale: Estimate };
  exponential: { readonly scale: Estimate };
}

export interface FitLifeOptions<D extends string> {
  readonly distribution: D;
  /** Confidence level of every interval, default 0.95. */
  readonly level?: number;
}

export interface LifeFit<D extends LogLifeName = LogLifeName> {
  readonly distribution: D;
  /**
   * weibull: shape, scale (63.2 % life), S = exp(−(t / scale)^shape). lognormal: location and scale
   * are mean and standard deviation of log t. exponential: scale is the mean life.
   */
  readonly parameters: ParametersOf[D];
  /** Of the parameters as listed above, row-major. */
  readonly covariance: Float64Array | null;
  readonly robustCovariance?: Float64Array | null;
  /** (location, log spread) of log t, in which the limits are formed; spread = 1 / shape for Weibull. */
  readonly working: WorkingParameters;
  readonly logLikelihood: number;
  readonly aic: number;
  /** Weight of all rows used, and of those that failed. */
  readonly subjects: number;
  readonly failures: number;
  /** Latest age at which anything was seen: what the fit says beyond it is extrapolation. */
  readonly observedTo: number;
  readonly iterations: number;
  readonly converged: boolean;
  readonly warnings: readonly string[];
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
    throw new StatisticsError('distribution', `${String(name)} is not one of those offered`);
  const rows = toLifeRows(data);
  requireMaximum(rows, name !== 'exponential');
  return name === 'weibull-mixture' ? fitMixture(rows, level) : fitLogLife(name, rows, level);
}

function fitLogLife<D extends LogLifeName>(name: D, rows: LifeRows, level: number): LifeFit<D> {
  const distribution = LOG_LIFE_DISTRIBUTIONS[name];
  const top = maximiseLogLife(rows, distribution);
  const warnings = warningsOf(top, distribution);
  const working = toWorking(rows, distribution, top, warnings.length === 0);
  const logLikelihood = top.evaluation.value + rows.logJacobian;
  return {
    distribution: name,
    ...reportParameters(name, working, level),
    working,
    logLikelihood,
    aic: 2 * (working.values.length - logLikelihood),
    subjects: rows.totalWeight,
    failures: rows.failedWeight,
    observedTo: rows.observedTo,
    iterations: top.iterations,
    converged: warnings.length === 0,
    warnings,
    ...predictions(distribution, working, level, rows, top),
  };
}

/** Shapes beyond are not of lives: the likelihood is climbing without end. */
const MOST_ALPHA = 60;
/** A standard error of the log shape that no two lives leave. */
const FLAT = 10;

function warningsOf(top: Maximum, { fixedAlpha }: LogLifeDistribution): string[] {
  const alpha = fixedAlpha ?? (top.parameters[1] as number);
  // Where no exact life pins the shape an endless climb flattens out: its standard error tells.
  const inverse = fixedAlpha === null && top.information ? invertCholesky(top.information) : null;
  const flat = inverse !== null && Math.sqrt(inverse[3] as number) > FLAT * alpha;
  if (alpha < LEAST_ALPHA || (flat && alpha < 1))
    return ['the likelihood climbs towards a shape of zero: the hazard falls faster than this distribution can'];
  if (top.converged && !flat) return [];
  return flat || alpha > MOST_ALPHA
    ? ['the likelihood climbs with the shape without end: one life fits every row, or those that entered before it']
    : [`did not converge in ${top.iterations} iterations`];
}

/** (γ, α) on the centred scale to (location, log spread) with covariance by the exact Jacobian. */
function toWorking(
  rows: LifeRows,
  distribution: LogLifeDistribution,
  top: Maximum,
  settled: boolean,
): WorkingParameters {
  const gamma = top.parameters[0] as number;
  const alpha = distribution.fixedAlpha ?? (top.parameters[1] as number);
  const free = distribution.fixedAlpha === null;
  const n = free ? 2 : 1;
  const jacobian = free
    ? Float64Array.of(1 / alpha, -gamma / (alpha * alpha), 0, -1 / alpha)
    : Float64Array.of(1 / alpha);
  // Away from a maximum the curvature says nothing of the error: no limits then, rather than wrong ones.
  const bread = settled && top.information ? invertCholesky(top.information) : null;
  const meat = clusterMeat(rows, distribution, top.parameters, null);
  const location = gamma / alpha + rows.logUnit;
  return {
    names: free ? ['location', 'logSpread'] : ['location'],
    values: free ? Float64Array.of(location, -Math.log(alpha)) : Float64Array.of(location),
    covariance: bread && transformCovariance(jacobian, bread, n),
    robustCovariance: bread && meat && transformCovariance(jacobian, sandwich(bread, meat, n), n),
  };
}

function reportParameters<D extends LogLifeName>(name: D, working: WorkingParameters, level: number) {
  const [location, logSpread] = working.values as unknown as [number, number];
  const report = (): { parameters: ParametersOf[LogLifeName]; jacobian: Float64Array } => {
    const logScale = (at: number, ...gradient: number[]) => waldEstimate(working, level, at, gradient, LOG_SCALE);
    if (name === 'exponential')
      return { parameters: { scale: logScale(location, 1) }, jacobian: Float64Array.of(Math.exp(location)) };
    if (name === 'weibull') {
      const [shape, scale] = [logScale(-logSpread, 0, -1), logScale(location, 1, 0)];
      return { parameters: { shape, scale }, jacobian: Float64Array.of(0, -shape.value, scale.value, 0) };
    }
    const scale = logScale(logSpread, 0, 1);
    const parameters = { location: waldEstimate(working, level, location, [1, 0], PLAIN_SCALE), scale };
    return { parameters, jacobian: Float64Array.of(1, 0, 0, scale.value) };
  };
  const { parameters, jacobian } = report();
  const natural = (covariance: Float64Array | null) =>
    covariance && transformCovariance(jacobian, covariance, working.values.length);
  return {
    parameters: parameters as ParametersOf[D],
    covariance: natural(working.covariance),
    ...(working.robustCovariance ? { robustCovariance: natural(working.robustCovariance) } : {}),
  };
}

function predictions(
  distribution: LogLifeDistribution,
  working: WorkingParameters,
  level: number,
  rows: LifeRows,
  top: Maximum,
): Pick<LifeFit, 'lifeAt' | 'survivalAt' | 'likelihoodRatio'> {
  const location = working.values[0] as number;
  const spread = working.values.length > 1 ? Math.exp(working.values[1] as number) : 1;
  const gradient = (first: number, second: number) => (working.values.length > 1 ? [first, second] : [first]);
  const survival = { to: distribution.survival, slope: distribution.density };
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
