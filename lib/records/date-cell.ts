/** The days that a record can mean; beyond them stand the placeholders of other programs. */
export const firstYear = 1950;
export const lastYear = 2099;

const monthDays = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const dayLength = 10;
const timeOfDay = /^[T ] ?\d{1,2}:\d{2}(:\d{2}([.,]\d+)?)? ?(Z|UTC|[+-]\d{2}(:?\d{2})?)?$/;

/**
 * A day written `YYYY-MM-DD`, a time behind it being cut off, as days since 1970-01-01; NaN where it
 * is not written so, is no day of the calendar, or lies outside the years above.
 */
export function dayIn(bytes: Uint8Array, start: number, end: number): number {
  if (end - start < dayLength || bytes[start + 4] !== 45 || bytes[start + 7] !== 45) return NaN;
  const year = digitsIn(bytes, start, 4);
  const month = digitsIn(bytes, start + 5, 2);
  const day = digitsIn(bytes, start + 8, 2);
  // Each comparison is false for NaN.
  if (!(year >= firstYear && year <= lastYear && month >= 1 && month <= 12 && day >= 1)) return NaN;
  if (day > monthDays[month - 1]! || (month === 2 && day === 29 && !isLeap(year))) return NaN;
  if (end - start > dayLength && !timeOfDay.test(textIn(bytes, start + dayLength, end))) return NaN;
  return daysBefore(year) + daysInYear(year, month) + day - 1;
}

function digitsIn(bytes: Uint8Array, start: number, count: number): number {
  let value = 0;
  for (let at = start; at < start + count; at++) {
    const digit = bytes[at]! - 48;
    if (!(digit >= 0 && digit <= 9)) return NaN;
    value = value * 10 + digit;
  }
  return value;
}

const textIn = (bytes: Uint8Array, start: number, end: number): string =>
  end - start > 40 ? '' : String.fromCharCode(...bytes.subarray(start, end));

const isLeap = (year: number): boolean => year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);

/** Days from 1970-01-01 to the first of January of a year, in the Gregorian calendar. */
const daysBefore = (year: number): number => (year - 1970) * 365 + leapYearsBefore(year) - leapYearsBefore(1970);

const leapYearsBefore = (year: number): number =>
  Math.floor((year - 1) / 4) - Math.floor((year - 1) / 100) + Math.floor((year - 1) / 400);

function daysInYear(year: number, month: number): number {
  let days = month > 2 && !isLeap(year) ? -1 : 0;
  for (let before = 1; before < month; before++) days += monthDays[before - 1]!;
  return days;
}
