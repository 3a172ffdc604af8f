import { toLevel } from './interval.ts';
import { cholesky, choleskyFailed, invertCholesky } from './numeric/cholesky.ts';
import { findRoot } from './numeric/find-root.ts';
import { gammaQuantile } from './numeric/incomplete-gamma.ts';
import { powerLawTrend, type PowerLawTrend } from './power-law-trend.ts';
import { toSystems, type PowerLawData, type Systems } from './power-law-systems.ts';
import { StatisticsError } from './statistics-error.ts';
import {
  LOG_SCALE,
  transformCovariance,
  waldEstimate,
  type Estimate,
  type WorkingParameters,
} from './working-estimates.ts';

export interface PowerLawProcess {
  /** β of the failure intensity λ β t^(β − 1): above 1 failures come faster with age, below 1 slower. */
  readonly shape: Estimate & { readonly limits: 'exact' | 'wald' };
  /** β less its bias, (n − 1) or (n − 2) n-ths of it; null where there is no such correction. */
  readonly unbiasedShape: number | null;
  /** Age by which one failure is expected, λ^(−1/β). */
  readonly scale: Estimate;
  /** λ, failures expected by age 1. */
  readonly rate: Estimate;
  /** Of (shape, rate), row-major, inverse observed information. */
  readonly covariance: Float64Array;
  readonly trend: PowerLawTrend;
  readonly events: number;
  readonly systems: number;
  readonly logLikelihood: number;
  readonly aic: number;
  /** Failures expected by an age, λ t^β. */
  expectedAt(age: number): Estimate;
  /** Failures per unit of age at an age, λ β t^(β − 1), and its inverse. */
  intensityAt(age: number): Estimate;
  meanBetweenAt(age: number): Estimate;
}

/**
 * Power-law (Weibull) process of repairable systems whose repair leaves them as old as they were:
 * one or several systems, each watched from its own entry to its own end, stopped at a time or at
 * a failure.
 *
 * Limits of the shape are exact (chi-square) when all systems are watched from age 0 to one common
 * time, or a single one is stopped at a failure; otherwise Wald limits on the log scale.
 *
 * @param data rows of failures and ends (see PowerLawData), ages in one unit.
 * @throws StatisticsError on bad columns, no failures, all failures at the very end of the watch, or
 *   failures so crowded at the start of late-entered watches that no power law fits best.
 * Source: Crow 1974; IEC 61710:2013 §7; Rigdon & Basu (2000) ch. 4–5; NIST/SEMATECH e-Handbook
 * 8.4.5.2. Outside check: reference cases plp-*, 1e-9; closed form for one common end.
 */
export function powerLawProcess(data: PowerLawData, options: { readonly level?: number } = {}): PowerLawProcess {
  const level = toLevel(options.level);
  const systems = toSystems(data);
  const events = systems.failure.length;
  if (events === 0) throw new StatisticsError('event', 'no failures: only a bound on the rate can be had');
  const shape = maximisingShape(systems);
  const { power, powerLog, powerLogLog } = exposures(systems, shape);
  const rate = events / power;
  const sumLog = systems.failure.reduce((sum, age) => sum + Math.log(age), 0);
  // Information in (log β, log λ) with ages in units of the longest: numbers near one whatever the unit.
  const cross = shape * rate * powerLog;
  const information = Float64Array.of(events + shape * shape * rate * powerLogLog, cross, cross, events);
  const factor = cholesky(information, 2, 1e-14);
  if (choleskyFailed(factor))
    throw new StatisticsError('event', 'the failures do not determine shape and rate together');
  const logLongest = Math.log(systems.longest);
  // log λ in the caller's unit is log λ − β log(longest).
  const covariance = transformCovariance(Float64Array.of(1, 0, -shape * logLongest, 1), invertCholesky(factor), 2);
  const values = Float64Array.of(Math.log(shape), Math.log(rate) - shape * logLongest);
  const working = { names: ['logShape', 'logRate'], values, covariance, robustCovariance: null };
  const exact = exactShapeLimits(systems, shape, level);
  const wald = waldEstimate(working, level, Math.log(shape), [1, 0], LOG_SCALE);
  const logLikelihood = events * (Math.log(shape * rate) - logLongest) + (shape - 1) * sumLog - events;
  const naturalRate = Math.exp(values[1] as number);
  return {
    shape: { ...wald, ...(exact ?? {}), limits: exact ? 'exact' : 'wald' },
    unbiasedShape: unbiased(systems, shape),
    ...predictions(working, level),
    covariance: transformCovariance(Float64Array.of(shape, 0, 0, naturalRate), covariance, 2),
    trend: powerLawTrend(systems),
    events,
    systems: systems.end.length,
    logLikelihood,
    aic: 4 - 2 * logLikelihood,
  };
}

/** Σ over systems of (end^β − start^β) and its first two derivatives in β. */
function exposures({ start, end }: Systems, shape: number) {
  let [power, powerLog, powerLogLog] = [0, 0, 0];
  for (let k = 0; k < end.length; k++)
    for (const [age, sign] of [
      [end[k] as number, 1],
      [start[k] as number, -1],
    ] as const) {
      if (age === 0) continue;
      const [term, log] = [sign * age ** shape, Math.log(age)];
      power += term;
      powerLog += term * log;
      powerLogLog += term * log * log;
    }
  return { power, powerLog, powerLogLog };
}

/** Root of the profile score n / β + Σ log t − n Σ(T^β log T) / Σ T^β, falling in β. */
function maximisingShape(systems: Systems): number {
  const n = systems.failure.length;
  const sumLog = systems.failure.reduce((sum, age) => sum + Math.log(age), 0);
  const score = (logShape: number) => {
    const shape = Math.exp(logShape);
    const { power, powerLog } = exposures(systems, shape);
    return n + shape * (sumLog - (n * powerLog) / power);
  };
  const [low, high] = [Math.log(1e-5), Math.log(1e4)];
  if (score(low) <= 0)
    throw new StatisticsError('event', 'failures crowd at the start of the watch: no shape above zero fits best');
  if (!(score(high) < 0))
    throw new StatisticsError('event', 'all failures are at the end of the watch: the shape has no upper bound');
  let far = 0;
  while (score(far) > 0) far++;
  return Math.exp(findRoot(score, far === 0 ? low : far - 1, far));
}

/** Whether every system was watched from age 0 to one common end. */
const commonEnd = ({ start, end }: Systems): boolean =>
  start.every((age) => age === 0) && end.every((age) => age === end[0]);

/** Degrees of freedom of 2 n β / β̂, or null where it is not chi-square. */
function exactDegrees(systems: Systems): number | null {
  const n = systems.failure.length;
  if (!commonEnd(systems)) return null;
  if (systems.stoppedAtFailure.every((stopped) => !stopped)) return 2 * n;
  return systems.end.length === 1 && n > 1 ? 2 * (n - 1) : null;
}

function exactShapeLimits(systems: Systems, shape: number, level: number) {
  const degrees = exactDegrees(systems);
  if (degrees === null) return null;
  const at = (probability: number) => (shape / systems.failure.length) * gammaQuantile(probability, degrees / 2);
  return { lower: at((1 - level) / 2), upper: at((1 + level) / 2) };
}

function unbiased(systems: Systems, shape: number): number | null {
  const degrees = exactDegrees(systems);
  const n = systems.failure.length;
  return degrees === null || degrees <= 2 ? null : (shape * (degrees / 2 - 1)) / n;
}

function predictions(working: WorkingParameters, level: number) {
  const [logShape, logRate] = working.values as unknown as [number, number];
  const shape = Math.exp(logShape);
  const logOf = (age: number) => {
    if (!(age > 0 && age < Infinity)) throw new StatisticsError('age', `${age} is not an age above zero`);
    return Math.log(age);
  };
  const intensity = (age: number, sign: number) => {
    const log = logOf(age);
    const gradient = [sign * (1 + shape * log), sign];
    return waldEstimate(working, level, sign * (logRate + logShape + (shape - 1) * log), gradient, LOG_SCALE);
  };
  return {
    rate: waldEstimate(working, level, logRate, [0, 1], LOG_SCALE),
    scale: waldEstimate(working, level, -logRate / shape, [logRate / shape, -1 / shape], LOG_SCALE),
    expectedAt: (age: number) =>
      waldEstimate(working, level, logRate + shape * logOf(age), [shape * logOf(age), 1], LOG_SCALE),
    intensityAt: (age: number) => intensity(age, 1),
    meanBetweenAt: (age: number) => intensity(age, -1),
  };
}
