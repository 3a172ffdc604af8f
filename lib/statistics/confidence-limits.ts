import { standardNormalQuantile } from './numeric/normal.ts';
import { StatisticsError } from './statistics-error.ts';

/** On which scale a curve's limits are symmetric: log(−log S), log S, or S itself. */
export type CurveInterval = 'log-log' | 'log' | 'plain';

export function toCurveInterval(interval: CurveInterval | undefined): CurveInterval {
  const checked = interval ?? 'log-log';
  if (checked !== 'log-log' && checked !== 'log' && checked !== 'plain')
    throw new StatisticsError('interval', `is '${String(checked)}', not 'log-log', 'log' or 'plain'`);
  return checked;
}

/** The normal quantile that leaves half of 1 − level beyond it. */
export const twoSidedQuantile = (level: number): number => -standardNormalQuantile((1 - level) / 2);

export interface CurveLimits {
  readonly lower: Float64Array;
  readonly upper: Float64Array;
}

/**
 * Pointwise limits of a survival curve (Klein & Moeschberger §4.3, 4.1.3 and its log form), within 0 to 1.
 *
 * Where the transforms have no value something honest is said instead of nothing. Before the first
 * event a log-log lower limit is the exact zero-event bound, (α/2)^(1/n) with n the fewest at risk so
 * far (the other two scales give 1, as they do elsewhere). Once S is 0 the lower limit is 0 and a
 * transformed upper limit stays where it last was, or at 1 − (α/2)^(1/n) when all n fail at the first
 * time; the plain one is 0, which is more than the data say and one reason it is not the default.
 *
 * @param standardError of S itself, at each time
 * @param atRisk lives (or clusters) at risk just before each time
 */
export function survivalLimits(
  survival: Float64Array,
  standardError: Float64Array,
  atRisk: ArrayLike<number>,
  interval: CurveInterval,
  level: number,
): CurveLimits {
  const places = survival.length;
  const lower = new Float64Array(places);
  const upper = new Float64Array(places);
  const z = twoSidedQuantile(level);
  const logTail = Math.log((1 - level) / 2);
  let fewest = Infinity;
  for (let place = 0; place < places; place++) {
    const s = survival[place] as number;
    const se = standardError[place] as number;
    if (s === 1) {
      fewest = Math.min(fewest, atRisk[place] as number);
      lower[place] = interval === 'log-log' ? Math.exp(logTail / fewest) : 1;
      upper[place] = 1;
    } else if (place > 0 && s === survival[place - 1] && se === standardError[place - 1]) {
      lower[place] = lower[place - 1] as number;
      upper[place] = upper[place - 1] as number;
    } else if (s === 0 && interval !== 'plain') {
      upper[place] = place > 0 ? (upper[place - 1] as number) : -Math.expm1(logTail / (atRisk[0] as number));
    } else if (interval === 'plain') {
      lower[place] = Math.max(0, s - z * se);
      upper[place] = Math.min(1, s + z * se);
    } else if (interval === 'log') {
      const factor = Math.exp((z * se) / s);
      lower[place] = s / factor;
      upper[place] = Math.min(1, s * factor);
    } else {
      const logS = Math.log(s);
      const factor = Math.exp((z * se) / (s * logS));
      // log S is negative, so `factor` is below 1 and its inverse gives the lower limit.
      lower[place] = Math.exp(logS / factor);
      upper[place] = Math.exp(logS * factor);
    }
  }
  return { lower, upper };
}

/** On which scale the limits of a growing total (cumulative hazard, mean number of events) are symmetric. */
export type TotalInterval = 'log' | 'plain';

export function toTotalInterval(interval: TotalInterval | undefined): TotalInterval {
  const checked = interval ?? 'log';
  if (checked !== 'log' && checked !== 'plain')
    throw new StatisticsError('interval', `is '${String(checked)}', not 'log' or 'plain'`);
  return checked;
}

/**
 * Pointwise limits of a total that starts at 0 (Klein & Moeschberger §4.3; Nelson 2003 §4.3). The log
 * scale keeps them positive; before the first event its upper limit is the exact zero-event bound
 * −log(α/2)/n, n the fewest at risk so far. Plain limits are as the formula gives them, below 0 included.
 */
export function totalLimits(
  total: Float64Array,
  standardError: Float64Array,
  atRisk: ArrayLike<number>,
  interval: TotalInterval,
  level: number,
): CurveLimits {
  const places = total.length;
  const lower = new Float64Array(places);
  const upper = new Float64Array(places);
  const z = twoSidedQuantile(level);
  const zeroEvents = -Math.log((1 - level) / 2);
  let fewest = Infinity;
  for (let place = 0; place < places; place++) {
    const value = total[place] as number;
    const reach = z * (standardError[place] as number);
    if (interval === 'plain') {
      lower[place] = value - reach;
      upper[place] = value + reach;
    } else if (value === 0) {
      fewest = Math.min(fewest, atRisk[place] as number);
      upper[place] = zeroEvents / fewest;
    } else {
      const factor = Math.exp(reach / value);
      lower[place] = value / factor;
      upper[place] = value * factor;
    }
  }
  return { lower, upper };
}

/**
 * Pointwise limits of a cumulative incidence, within 0 to 1: symmetric on log(−log F), log F or F
 * itself. While F is 0 the transforms have no value: the lower limit is 0 and the upper the exact
 * zero-event bound 1 − (α/2)^(1/n), n the fewest at risk so far (plain: 0). Where F is 1 the
 * transformed lower limit stays where it last was.
 */
export function incidenceLimits(
  incidence: Float64Array,
  standardError: Float64Array,
  atRisk: ArrayLike<number>,
  interval: CurveInterval,
  level: number,
): CurveLimits {
  const places = incidence.length;
  const lower = new Float64Array(places);
  const upper = new Float64Array(places);
  const z = twoSidedQuantile(level);
  const logTail = Math.log((1 - level) / 2);
  let fewest = Infinity;
  for (let place = 0; place < places; place++) {
    const f = incidence[place] as number;
    const reach = z * (standardError[place] as number);
    if (place > 0 && f > 0 && f === incidence[place - 1] && standardError[place] === standardError[place - 1]) {
      lower[place] = lower[place - 1] as number;
      upper[place] = upper[place - 1] as number;
    } else if (interval === 'plain') {
      lower[place] = Math.max(0, f - reach);
      upper[place] = Math.min(1, f + reach);
    } else if (f === 0) {
      fewest = Math.min(fewest, atRisk[place] as number);
      upper[place] = -Math.expm1(logTail / fewest);
    } else if (interval === 'log') {
      const factor = Math.exp(reach / f);
      lower[place] = f / factor;
      upper[place] = Math.min(1, f * factor);
    } else if (f >= 1) {
      lower[place] = place > 0 ? (lower[place - 1] as number) : Math.exp(logTail / (atRisk[0] as number));
      upper[place] = 1;
    } else {
      const logF = Math.log(f);
      const factor = Math.exp(reach / (f * logF));
      lower[place] = Math.exp(logF / factor);
      upper[place] = Math.exp(logF * factor);
    }
  }
  return { lower, upper };
}
