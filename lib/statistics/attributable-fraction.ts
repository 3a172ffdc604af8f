import { twoSidedQuantile } from './confidence-limits.ts';
import { toLevel, type Interval } from './interval.ts';
import { StatisticsError } from './statistics-error.ts';
import { toNumbers, type NumberColumn } from './survival-data.ts';

/** Failures by level of an exposure, and what ratio each level goes with. */
export interface ExposedFailures {
  /** Failures at each level, the reference level first. */
  readonly cases: NumberColumn;
  /** Log ratio (hazard, rate or risk) of each level but the reference, adjusted or not. */
  readonly coefficients: NumberColumn;
  /** Of the coefficients, row-major; robust to clusters where there are any. */
  readonly covariance: NumberColumn;
}

export interface AttributableOptions {
  readonly level?: number;
  /** `log-complement` (default): limits symmetric on log(1 − fraction), which never pass 1; or `plain`. */
  readonly interval?: 'log-complement' | 'plain';
  /**
   * Whether the ratios were estimated from these very failures (default true). False for ratios taken from elsewhere,
   * independent of them: Miettinen's and most textbooks' formula, too narrow when it is not so.
   */
  readonly sameFailures?: boolean;
}

export interface AttributableFraction extends Interval {
  readonly standardError: number | null;
  readonly cases: number;
  readonly level: number;
  readonly interval: 'log-complement' | 'plain';
  /** Why there is no value. */
  readonly reason: string | null;
}

/**
 * Share of the failures in excess of what there would have been without the exposure, by its ratios
 * and its prevalence among the failures: 1 − Σ pₖ / ratioₖ over all levels (for one level
 * p · (1 − 1/ratio)), limits by the delta method. Below zero where the exposed fail less. Fractions
 * of several exposures do not add up.
 *
 * Where the ratios come from these failures, those that make a level's share large make its ratio
 * large too: by the likelihood equations the count at level k and log ratio j have covariance 1 for
 * j = k and else 0, whatever is adjusted for (information times its inverse). Taking them as
 * independent covers the truth too seldom.
 *
 * @throws StatisticsError for counts below zero, or lengths that do not fit each other.
 * Source: Miettinen 1974, Am. J. Epidemiology 99:325; Bruzzi et al. 1985, Am. J. Epidemiology 122:904
 * (several levels); Benichou & Gail 1990, Biometrics 46:991 (variance). Outside check: reference
 * cases paf-colon-cox, paf-nickel-poisson (ratios as if from elsewhere), 1e-6; closed form; simulation.
 */
export function attributableFraction(
  { cases, coefficients, covariance }: ExposedFailures,
  options: AttributableOptions = {},
): AttributableFraction {
  const counts = toNumbers('cases', cases, coefficients.length + 1);
  if (coefficients.length === 0) throw new StatisticsError('coefficients', 'are none');
  if (covariance.length !== coefficients.length ** 2)
    throw new StatisticsError(
      'covariance',
      `has ${covariance.length} values where ${coefficients.length ** 2} are wanted`,
    );
  counts.forEach((count, row) => {
    if (count < 0) throw new StatisticsError('cases', `${count} is below zero`, row);
  });
  const total = counts.reduce((sum, count) => sum + count, 0);
  const inverse = Float64Array.from(counts, (_, k) => (k === 0 ? 1 : Math.exp(-(coefficients[k - 1] as number))));
  const mean = (of: (k: number) => number) => counts.reduce((sum, count, k) => sum + (count / total) * of(k), 0);
  const complement = mean((k) => inverse[k] as number);
  const slope = Float64Array.from(
    coefficients,
    (_, k) => -((counts[k + 1] as number) / total) * (inverse[k + 1] as number),
  );
  return fractionOf(
    {
      cases: total,
      complement,
      shareVariance: mean((k) => ((inverse[k] as number) - complement) ** 2) / total,
      slope,
      covariance,
      // Covariance of the complement with each coefficient: (1/ratio − 1) / cases.
      together: slope.map((_, k) => ((inverse[k + 1] as number) - 1) / total),
    },
    options,
  );
}

/** The fraction as 1 − complement, and what its variance is made of. */
export interface FractionParts {
  readonly cases: number;
  readonly complement: number;
  /** Of the complement at known ratios. */
  readonly shareVariance: number;
  /** d complement / d coefficient. */
  readonly slope: Float64Array;
  readonly covariance: NumberColumn;
  /** Covariance of the complement at known ratios with each coefficient, when both are of the same failures. */
  readonly together: Float64Array;
}

/** Value and limits from the parts. */
export function fractionOf(parts: FractionParts, options: AttributableOptions): AttributableFraction {
  const { cases, complement, slope, covariance, together } = parts;
  const about = { cases, level: toLevel(options.level), interval: toInterval(options.interval) };
  const reason = cases > 0 ? reasonAgainst(complement, covariance) : 'no failures';
  if (reason !== null) return { value: null, lower: null, upper: null, standardError: null, ...about, reason };
  let variance = parts.shareVariance;
  slope.forEach((one, j) => {
    if (options.sameFailures !== false) variance += 2 * one * (together[j] as number);
    slope.forEach((other, k) => (variance += one * other * (covariance[j * slope.length + k] as number)));
  });
  const standardError = Math.sqrt(Math.max(0, variance));
  return {
    value: 1 - complement,
    ...fractionLimits(complement, standardError, about),
    standardError,
    ...about,
    reason,
  };
}

function reasonAgainst(complement: number, covariance: NumberColumn): string | null {
  const finite = Number.isFinite(complement) && Array.from(covariance).every(Number.isFinite);
  return finite && complement > 0 ? null : 'a ratio is zero or infinite, or has no finite error';
}

/** Limits of 1 − complement. */
export function fractionLimits(
  complement: number,
  standardError: number,
  { level, interval }: Pick<AttributableFraction, 'level' | 'interval'>,
): { lower: number; upper: number } {
  const z = twoSidedQuantile(level);
  if (interval === 'plain')
    return { lower: 1 - complement - z * standardError, upper: 1 - complement + z * standardError };
  const spread = Math.exp((z * standardError) / complement);
  return { lower: 1 - complement * spread, upper: 1 - complement / spread };
}

function toInterval(interval: AttributableOptions['interval']): AttributableFraction['interval'] {
  const checked = interval ?? 'log-complement';
  if (checked !== 'log-complement' && checked !== 'plain')
    throw new StatisticsError('interval', `is '${String(checked)}', not 'log-complement' or 'plain'`);
  return checked;
}
