import { StatisticsError } from './statistics-error.ts';

/**
 * An estimate with its limits. A null value is not defined (the result then says why in `reason`);
 * a null limit is unbounded, or was not asked for in a one-sided interval.
 */
export interface Interval {
  readonly value: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
}

/** The confidence level, checked: a share strictly between 0 and 1. */
export function toLevel(level: number | undefined): number {
  const checked = level ?? 0.95;
  if (!(checked > 0 && checked < 1)) throw new StatisticsError('level', `${checked} is not between 0 and 1`);
  return checked;
}
