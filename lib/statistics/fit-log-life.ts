import type { LifeRows } from './life-rows.ts';
import { LOG_LIFE_DISTRIBUTIONS, type LogLifeDistribution, type LogLifeName } from './log-life-distribution.ts';
import { logLifePredictions, type LogLifePredictions } from './log-life-predictions.ts';
import { clusterMeat } from './log-life-clusters.ts';
import { LEAST_ALPHA, maximiseLogLife, MOST_ALPHA } from './maximise-log-life.ts';
import { invertCholesky, sandwich } from './numeric/cholesky.ts';
import type { Maximum } from './numeric/maximise.ts';
import { clusterWarnings } from './regression-result.ts';
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

export interface LifeFit<D extends LogLifeName = LogLifeName> extends LogLifePredictions {
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
  /** With a row that says something, where clusters were given; under two of them nothing has a `robust` part. */
  readonly clusters?: number;
  readonly iterations: number;
  readonly converged: boolean;
  readonly warnings: readonly string[];
}

/** Location-scale fit of checked rows; see fitLife. */
export function fitLogLife<D extends LogLifeName>(name: D, rows: LifeRows, level: number): LifeFit<D> {
  const distribution = LOG_LIFE_DISTRIBUTIONS[name];
  const top = maximiseLogLife(rows, distribution);
  const warnings = warningsOf(top, distribution);
  const working = toWorking(rows, distribution, top, warnings.length === 0);
  const logLikelihood = top.evaluation.value + rows.logJacobian;
  const clusters = rows.cluster?.count ?? null;
  return {
    distribution: name,
    ...reportParameters(name, working, level),
    working,
    logLikelihood,
    aic: 2 * (working.values.length - logLikelihood),
    subjects: rows.totalWeight,
    failures: rows.failedWeight,
    observedTo: rows.observedTo,
    ...(clusters === null ? {} : { clusters }),
    iterations: top.iterations,
    converged: warnings.length === 0,
    warnings: [...warnings, ...clusterWarnings(clusters).map(({ message }) => message)],
    ...logLifePredictions(distribution, working, level, rows, top),
  };
}

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
