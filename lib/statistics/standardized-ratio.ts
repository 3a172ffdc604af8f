import { eventRate, type RobustRate } from './event-rate.ts';
import type { Interval } from './interval.ts';
import { lowerGamma, upperGamma } from './numeric/incomplete-gamma.ts';
import { StatisticsError } from './statistics-error.ts';
import type { CategoryColumn, NumberColumn } from './survival-data.ts';

export interface StandardizedRatioData {
  /** Events seen, in all or per row. Whole numbers. */
  readonly observed: number | NumberColumn;
  /** Events the reference predicts for the same subjects over the same time at risk, in all or per row. */
  readonly expected: number | NumberColumn;
  readonly cluster?: CategoryColumn;
}

export interface StandardizedRatio extends Interval {
  readonly observed: number;
  readonly expected: number;
  readonly level: number;
  /** (O − E)²/E, one degree of freedom; null when nothing is expected. */
  readonly statistic: number | null;
  /** Exact Poisson, twice the smaller tail: in step with the limits. */
  readonly pValue: number | null;
  /** Limits that allow for events clustering within subjects; null without `cluster`. */
  readonly robust: (Interval & Omit<RobustRate, 'rate' | 'meanBetween'>) | null;
  readonly reason: string | null;
}

/**
 * Observed over expected with exact Poisson limits. The limits take `expected` as known: where it comes from a
 * reference fitted to few events, they are too narrow, and a comparison of two groups (`rateRatio`) is the honest one.
 *
 * Source: Breslow & Day vol. II §2.3, eq. 2.10. Outside check: reference cases smr-*.
 *
 * @throws StatisticsError for counts that are not counts, negative expectations, events where none is expected at
 * all, rows of unlike length, or a level outside (0, 1).
 */
export function standardizedRatio(
  data: StandardizedRatioData,
  options: { readonly level?: number } = {},
): StandardizedRatio {
  const rate = asRate(data, options);
  const { events: observed, exposure: expected, level } = rate;
  const { value, lower, upper } = rate.rate;
  const known = expected > 0;
  const less = known ? upperGamma(observed + 1, expected) : 1;
  const more = known && observed > 0 ? lowerGamma(observed, expected) : 1;
  const robust = rate.robust && {
    ...rate.robust.rate,
    clusters: rate.robust.clusters,
    standardErrorLog: rate.robust.standardErrorLog,
    reason: rate.robust.reason?.replace('exposure', 'events expected') ?? null,
  };
  return {
    ...{ value, lower, upper, observed, expected, level, robust },
    statistic: known ? (observed - expected) ** 2 / expected : null,
    pValue: known ? Math.min(1, 2 * Math.min(less, more)) : null,
    reason: known ? null : 'no events expected',
  };
}

/** A rate whose exposure is the expectation is this ratio; faults are named after this function's own arguments. */
function asRate({ observed, expected, cluster }: StandardizedRatioData, options: { readonly level?: number }) {
  try {
    return eventRate({ events: observed, exposure: expected, ...(cluster ? { cluster } : {}) }, options);
  } catch (error) {
    if (!(error instanceof StatisticsError)) throw error;
    const argument = { events: 'observed', exposure: 'expected' }[error.argument] ?? error.argument;
    throw new StatisticsError(argument, error.message.replace(/^[^:]*: /, ''), error.row);
  }
}
