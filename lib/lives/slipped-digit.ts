import { agree, type MeterPoint, type Rules } from './meter-point.ts';

/** Readings lie months apart, and in two weeks a unit is hardly further off its even pace. */
const daysNear = 14;

interface Meant {
  readonly miles: number;
  /** Whether the digit is one that fingers add: the same as its neighbour, or a zero at the end. */
  readonly plain: boolean;
}

/** Every number that is left when one digit of the whole miles is taken out; nobody types a zero before them. */
function withoutOneDigit(miles: number): Meant[] {
  const [whole = '', part] = String(miles).split('.');
  const decimals = part === undefined ? '' : `.${part}`;
  return Array.from(whole, (digit, at) => ({
    digits: `${whole.slice(0, at)}${whole.slice(at + 1)}`,
    plain: digit === whole[at - 1] || digit === whole[at + 1] || (digit === '0' && at === whole.length - 1),
  }))
    .filter(({ digits }) => digits !== '' && !/^0./.test(digits))
    .map(({ digits, plain }) => ({ miles: Number(`${digits}${decimals}`), plain }));
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
 * what the unit runs in that time. Of several the nearest to what was to be expected, but for one without a
 * digit that fingers add, which within two weeks' miles of that goes before others; null where none fits.
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
  const fitting = withoutOneDigit(point.miles).filter(({ miles }) => {
    const meant = { ...point, miles };
    if (Math.abs(miles - there) > leeway) return false;
    return (!before || agree(before, meant, rules)) && (!after || agree(meant, after, rules));
  });
  const off = ({ miles }: Meant) => Math.abs(miles - there);
  const first = (meant: Meant) => Number(meant.plain && off(meant) <= (pace ?? 0) * daysNear);
  fitting.sort((a, b) => first(b) - first(a) || off(a) - off(b) || a.miles - b.miles);
  return fitting[0]?.miles ?? null;
}
