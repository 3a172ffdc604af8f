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
