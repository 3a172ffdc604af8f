import { StatisticsError } from './statistics-error.ts';

/** A fraction failed, strictly between 0 and 1. */
export function toFraction(fraction: number): number {
  if (!(fraction > 0 && fraction < 1)) throw new StatisticsError('fraction', `${fraction} is not between 0 and 1`);
  return fraction;
}

/** A time from zero on. */
export function toTime(time: number): number {
  if (!(time >= 0 && time < Infinity)) throw new StatisticsError('time', `${time} is not a time from zero on`);
  return time;
}
