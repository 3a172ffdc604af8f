import { agree, type MeterPoint, type Rules } from './meter-point.ts';

/** Every number that is left when one digit of the whole miles is taken out; nobody types a zero before them. */
function withoutOneDigit(miles: number): number[] {
  const [whole = '', part] = String(miles).split('.');
  const decimals = part === undefined ? '' : `.${part}`;
  return Array.from(whole, (_, at) => `${whole.slice(0, at)}${whole.slice(at + 1)}`)
    .filter((digits) => digits !== '' && !/^0./.test(digits))
    .map((digits) => Number(`${digits}${decimals}`));
}

/** Miles expected on a day from the readings beside it. */
function expected(day: number, before: MeterPoint | null, after: MeterPoint | null, pace: number | null) {
  if (before && after) {
    const days = after.day - before.day;
    return days === 0 ? before.miles : before.miles + ((after.miles - before.miles) * (day - before.day)) / days;
  }
  const [beside, run] = [before ?? after, pace ?? 0];
  return beside ? beside.miles + run * (day - beside.day) : null;
}

/**
 * The miles meant where one digit too many was typed: what is left without it fits the readings on
 * either side; at the end of a unit's readings, where one side is open, it also lies within half of
 * what the unit runs in that time. Of several the nearest to what was to be expected; null where none fits.
 */
export function slippedDigit(
  point: MeterPoint,
  before: MeterPoint | null,
  after: MeterPoint | null,
  pace: number | null,
  rules: Rules,
): number | null {
  if (pace === null && !(before && after)) return null;
  const there = expected(point.day, before, after, pace);
  if (there === null) return null;
  const beside = before ?? after;
  const leeway = before && after ? Infinity : 0.5 * (pace ?? 0) * Math.abs(point.day - (beside?.day ?? point.day));
  const fitting = withoutOneDigit(point.miles).filter((miles) => {
    const meant = { ...point, miles };
    if (Math.abs(miles - there) > leeway) return false;
    return (!before || agree(before, meant, rules)) && (!after || agree(meant, after, rules));
  });
  const nearest = fitting.sort((a, b) => Math.abs(a - there) - Math.abs(b - there) || a - b)[0];
  return nearest ?? null;
}
