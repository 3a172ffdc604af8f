import { nearMiles, offCourse, type Beside, type MeantMiles } from './course-fit.ts';
import type { MeterPoint, Rules } from './meter-point.ts';

interface Left {
  readonly miles: number;
  /** Whether the digit is one that fingers add: the same as its neighbour, or a zero at the end. */
  readonly plain: boolean;
}

/** Every number that is left when one digit of the whole miles is taken out; nobody types a zero before them. */
function withoutOneDigit(miles: number): Left[] {
  const [whole = '', part] = String(miles).split('.');
  const decimals = part === undefined ? '' : `.${part}`;
  return Array.from(whole, (digit, at) => ({
    digits: `${whole.slice(0, at)}${whole.slice(at + 1)}`,
    plain: digit === whole[at - 1] || digit === whole[at + 1] || (digit === '0' && at === whole.length - 1),
  }))
    .filter(({ digits }) => digits !== '' && !/^0./.test(digits))
    .map(({ digits, plain }) => ({ miles: Number(`${digits}${decimals}`), plain }));
}

/**
 * The miles meant where one digit too many was typed: what is left without it fits the readings beside it. Of
 * several the nearest to what was to be expected, but for one without a digit that fingers add, which within two
 * weeks' miles of that goes before others; null where none fits.
 */
export function slippedDigit(point: MeterPoint, beside: Beside, rules: Rules): MeantMiles | null {
  const fitting = withoutOneDigit(point.miles).flatMap(({ miles, plain }) => {
    const off = offCourse(point, miles, beside, rules);
    return off === null ? [] : [{ miles, off, first: plain && off <= nearMiles(beside) }];
  });
  fitting.sort((a, b) => Number(b.first) - Number(a.first) || a.off - b.off || a.miles - b.miles);
  return fitting[0] ?? null;
}
