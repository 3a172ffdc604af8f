import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import { toLevel, type Interval } from './interval.ts';
import { gammaQuantile } from './numeric/incomplete-gamma.ts';
import { jackknife } from './rate-jackknife.ts';
import { StatisticsError } from './statistics-error.ts';
import { toCategory, toNumbers, type Category, type CategoryColumn, type NumberColumn } from './survival-data.ts';

export interface EventRateData {
  /** Events in all, or per row. Whole numbers. */
  readonly events: number | NumberColumn;
  /** Exposure in all, or per row, in any unit (miles, hours, installations). */
  readonly exposure: number | NumberColumn;
  /** What the rows of one subject share, such as the vehicle; gives `robust`. */
  readonly cluster?: CategoryColumn;
}

export interface EventRateOptions {
  /** Confidence level, 0.95 unless given. */
  readonly level?: number;
  /** `time`: watched to a set exposure (default). `failure`: watched until the last event happened. */
  readonly termination?: 'time' | 'failure';
  /** `two` (default), or one limit of the mean between events: its `lower` (upper of the rate) or `upper`. */
  readonly sided?: 'two' | 'lower' | 'upper';
}

export interface EventRate {
  readonly events: number;
  readonly exposure: number;
  readonly level: number;
  /** Events per unit of exposure. */
  readonly rate: Interval;
  /** Exposure per event: the mean miles between failures. */
  readonly meanBetween: Interval;
  /** Limits that hold when events cluster within subjects; null without `cluster`. */
  readonly robust: RobustRate | null;
  /** Why a value is null; null when none is. */
  readonly reason: string | null;
}

export interface RobustRate {
  readonly clusters: number;
  /** Standard error of the log rate; null where it cannot be had. */
  readonly standardErrorLog: number | null;
  readonly rate: Interval;
  readonly meanBetween: Interval;
  readonly reason: string | null;
}

/**
 * Events per exposure and its inverse, with exact limits.
 *
 * Time-terminated limits of the mean between events are 2T/χ²(1−α/2; 2r+2) and 2T/χ²(α/2; 2r); failure-terminated
 * ones have 2r degrees of freedom at both ends. With no event the value of `meanBetween` and its upper limit are
 * null, its two-sided 95 % lower limit is T/3.689. The limits of `rate` are the inverses.
 *
 * With `cluster`, `robust` holds limits from the jackknife: the log rate with each cluster left out in turn, Student's t
 * on clusters − 1 degrees of freedom. With fewer than some ten events lean on the wider of the two.
 *
 * Source: NIST/SEMATECH e-Handbook §8.4.5.1; IEC 60605-4; jackknife over clusters: Efron & Tibshirani, An Introduction
 * to the Bootstrap, ch. 11. Outside check: R's qchisq and poisson.test (reference cases mtbf-*, nist-mtbf-factors).
 *
 * @throws StatisticsError for a negative or fractional count, a negative exposure, events without exposure, rows of
 * unlike length, a level outside (0, 1), or failure termination without an event.
 */
export function eventRate(data: EventRateData, options: EventRateOptions = {}): EventRate {
  const level = toLevel(options.level);
  const rows = toRateRows(data);
  const events = rows.events.reduce((sum, value) => sum + value, 0);
  const exposure = rows.exposure.reduce((sum, value) => sum + value, 0);
  if (events > 0 && exposure === 0) throw new StatisticsError('exposure', 'is zero although there are events');
  if (events === 0 && options.termination === 'failure')
    throw new StatisticsError('events', 'failure-terminated exposure ends with an event, but there is none');
  const tail = options.sided === 'lower' || options.sided === 'upper' ? 1 - level : (1 - level) / 2;
  const [low, high] = poissonLimits(events, tail, options.termination ?? 'time');
  const rate: Interval = {
    value: exposure > 0 ? events / exposure : null,
    lower: exposure > 0 && options.sided !== 'lower' ? low / exposure : null,
    upper: exposure > 0 && options.sided !== 'upper' ? high / exposure : null,
  };
  const reason = exposure === 0 ? 'no exposure' : events === 0 ? 'no events' : null;
  const robust = rows.cluster ? robustRate(rows, rows.cluster, events, exposure, tail, options.sided ?? 'two') : null;
  return { events, exposure, level, rate, meanBetween: inverse(rate), robust, reason };
}

/** Exact limits of a Poisson mean given its count; `tail` is the share left beyond each limit. */
export function poissonLimits(count: number, tail: number, termination: 'time' | 'failure' = 'time'): [number, number] {
  const low = count === 0 ? 0 : gammaQuantile(tail, count);
  return [low, gammaQuantile(1 - tail, termination === 'time' ? count + 1 : count)];
}

export interface RateRows {
  readonly events: Float64Array;
  readonly exposure: Float64Array;
  readonly cluster: Category | null;
}

/** Checked columns of counts and exposures; single numbers become one row. */
export function toRateRows(data: EventRateData): RateRows {
  const column = (value: number | NumberColumn) => (typeof value === 'number' ? [value] : value);
  const length = column(data.events).length;
  const events = toNumbers('events', column(data.events), length);
  const exposure = toNumbers('exposure', column(data.exposure), length);
  for (let row = 0; row < length; row++) {
    const count = events[row] as number;
    if (count < 0 || !Number.isInteger(count)) throw new StatisticsError('events', `${count} is not a count`, row);
    if ((exposure[row] as number) < 0) throw new StatisticsError('exposure', `${exposure[row]} is negative`, row);
  }
  return { events, exposure, cluster: data.cluster ? toCategory('cluster', data.cluster, length) : null };
}

function robustRate(
  rows: RateRows,
  cluster: Category,
  events: number,
  exposure: number,
  tail: number,
  sided: 'two' | 'lower' | 'upper',
): RobustRate {
  const rate = exposure > 0 ? events / exposure : null;
  const [seen, watched] = [new Float64Array(cluster.levels.length), new Float64Array(cluster.levels.length)];
  cluster.codes.forEach((code, row) => {
    seen[code] = (seen[code] as number) + (rows.events[row] as number);
    watched[code] = (watched[code] as number) + (rows.exposure[row] as number);
  });
  const without: number[] = [];
  watched.forEach((miles, code) => {
    if (miles > 0) without.push(Math.log((events - (seen[code] as number)) / (exposure - miles)));
  });
  const { standardErrorLog, reason } = jackknife(rate === null ? -Infinity : Math.log(rate), without);
  const clusters = without.length;
  if (rate === null || standardErrorLog === null) {
    const none = { value: rate, lower: null, upper: null };
    return { clusters, standardErrorLog: null, rate: none, meanBetween: inverse(none), reason };
  }
  const factor = Math.exp(tQuantile(1 - tail, clusters - 1) * standardErrorLog);
  const limits: Interval = {
    value: rate,
    lower: sided === 'lower' ? null : rate / factor,
    upper: sided === 'upper' ? null : rate * factor,
  };
  return { clusters, standardErrorLog, rate: limits, meanBetween: inverse(limits), reason };
}

function inverse(rate: Interval): Interval {
  const turn = (value: number | null) => (value === null || value === 0 ? null : 1 / value);
  return { value: turn(rate.value), lower: turn(rate.upper), upper: turn(rate.lower) };
}
