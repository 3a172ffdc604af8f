import { daysAMonth } from '../../../shared/units.ts';
import { ended } from '../life-rows.ts';
import { gather, placesWhere } from '../gather.ts';

/** Failures of the last days are still on their way into the records: lives are followed until then. */
export const arrivingDays = 45;

/** Lives of known day of installation; columns of equal length, ages in what the axis counts. */
export interface FollowedLives {
  /** Places in the lives table. */
  readonly rows: Int32Array;
  readonly installDay: Float64Array;
  readonly entry: Float64Array;
  readonly exit: Float64Array;
  readonly event: Uint8Array;
  /** A code of `ended`. */
  readonly cause: Uint8Array;
  /** Days since installation at entry and exit; NaN where a lives table tells none, and then the life is not cut. */
  readonly entryDays: Float64Array;
  readonly exitDays: Float64Array;
}

export interface Uncut extends Omit<FollowedLives, 'entryDays' | 'exitDays'> {
  readonly entryMonths: Float64Array;
  readonly exitMonths: Float64Array;
}

/** The last day of the records: the end of the window, or the last day a life was seen where that is earlier. */
export function lastDay({ installDay, exitMonths }: Uncut, windowEnd: number): number {
  let seen = -Infinity;
  for (let at = 0; at < installDay.length; at++) {
    const days = (exitMonths[at] as number) * daysAMonth;
    const day = (installDay[at] as number) + (Number.isNaN(days) ? 0 : days);
    if (day > seen) seen = day;
  }
  return Math.min(windowEnd, seen);
}

/**
 * Lives followed to a day by the calendar and no further: what was known of them then. A life still
 * running on that day is censored there, its age between entry and exit taken as linear in days.
 */
export function followedTo(lives: Uncut, day: number): FollowedLives {
  const { installDay, entryMonths, exitMonths } = lives;
  const entryDays = entryMonths.map((months) => months * daysAMonth);
  const exitDays = exitMonths.map((months) => months * daysAMonth);
  const kept = placesWhere(installDay.length, (at) => (installDay[at] as number) + (entryDays[at] || 0) < day);
  const taken = { exit: gather(lives.exit, kept), event: gather(lives.event, kept), cause: gather(lives.cause, kept) };
  const ends = gather(exitDays, kept);
  for (const [place, at] of kept.entries()) {
    const left = day - (installDay[at] as number);
    const [from, to] = [entryDays[at] as number, exitDays[at] as number];
    if (!(to > left)) continue;
    const [young, old] = [lives.entry[at] as number, lives.exit[at] as number];
    taken.exit[place] = young + ((old - young) * (left - from)) / (to - from);
    taken.event[place] = 0;
    taken.cause[place] = ended.running;
    ends[place] = left;
  }
  const open = placesWhere(
    kept.length,
    (place) => (taken.exit[place] as number) > (lives.entry[kept[place] as number] as number),
  );
  const places = gather(kept, open);
  return {
    ...{ rows: gather(lives.rows, places), installDay: gather(installDay, places), entry: gather(lives.entry, places) },
    ...{ exit: gather(taken.exit, open), event: gather(taken.event, open), cause: gather(taken.cause, open) },
    ...{ entryDays: gather(entryDays, places), exitDays: gather(ends, open) },
  };
}
