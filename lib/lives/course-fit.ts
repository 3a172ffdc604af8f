import { agree, type MeterPoint, type Rules } from './meter-point.ts';

/** What a reading lies between: those kept on either side of it on the same meter, and the unit's pace. */
export interface Beside {
  readonly before: MeterPoint | null;
  readonly after: MeterPoint | null;
  readonly pace: number | null;
}

/** Miles that may have been meant, and how far they are off what was to be expected. */
export interface MeantMiles {
  readonly miles: number;
  readonly off: number;
}

/** Miles expected on a day from the readings beside it. */
function expected(day: number, { before, after, pace }: Beside): number | null {
  if (before && after) {
    const days = after.day - before.day;
    return days === 0 ? before.miles : before.miles + ((after.miles - before.miles) * (day - before.day)) / days;
  }
  const [beside, run] = [before ?? after, pace ?? 0];
  return beside ? beside.miles + run * (day - beside.day) : null;
}

/** Readings lie months apart, and in two weeks a unit is hardly further off its even pace. */
const daysNear = 14;

/** Miles off what was to be expected that are still near it. */
export const nearMiles = ({ pace }: Beside): number => (pace ?? 0) * daysNear;

/** Whether the readings on either side allow it, by the rules that are on. */
export const follows = (point: MeterPoint, { before, after }: Beside, rules: Rules): boolean =>
  (!before || agree(before, point, rules)) && (!after || agree(point, after, rules));

/**
 * How far miles that may have been meant lie off what was to be expected on the day; null where the unit cannot
 * have run them. They fit the readings on either side; at the end of a unit's readings, where one side is open,
 * they also lie within half of what the unit runs in that time.
 */
export function offCourse(point: MeterPoint, miles: number, beside: Beside, rules: Rules): number | null {
  const { before, after, pace } = beside;
  const there = expected(point.day, beside);
  if (there === null || (pace === null && !(before && after))) return null;
  const near = before ?? after;
  const leeway = before && after ? Infinity : 0.5 * (pace ?? 0) * Math.abs(point.day - (near?.day ?? point.day));
  const off = Math.abs(miles - there);
  return off <= leeway && follows({ ...point, miles }, beside, rules) ? off : null;
}
