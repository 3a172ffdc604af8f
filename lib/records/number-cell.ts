import type { RecordColumn } from '../../shared/record-tables.ts';

const zero = 48;
const point = 46;
const minus = 45;
const plus = 43;

/** Powers of ten that a double holds exactly; dividing a whole number under 2^53 by one rounds once only. */
const powers = Array.from({ length: 16 }, (_, places) => 10 ** places);

const otherNumber = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/;

/** A number written with a decimal point and without thousands separators, or NaN. */
export function numberIn(bytes: Uint8Array, start: number, end: number): number {
  let at = start;
  const negative = bytes[at] === minus;
  if (negative || bytes[at] === plus) at++;
  let digits = 0;
  let places = -1;
  let whole = 0;
  for (; at < end; at++) {
    const byte = bytes[at]!;
    if (byte >= zero && byte <= zero + 9) {
      whole = whole * 10 + (byte - zero);
      digits++;
      if (places >= 0) places++;
    } else if (byte === point && places < 0) places = 0;
    else return otherNumberIn(bytes, start, end);
  }
  // Fifteen digits are always exact; longer ones are left to the language.
  if (digits === 0 || digits > 15) return otherNumberIn(bytes, start, end);
  const value = places > 0 ? whole / powers[places]! : whole;
  return negative && value !== 0 ? -value : value;
}

function otherNumberIn(bytes: Uint8Array, start: number, end: number): number {
  if (end - start > 400) return NaN;
  const text = String.fromCharCode(...bytes.subarray(start, end));
  return otherNumber.test(text) ? Number(text) : NaN;
}

/** Whether a number is one that the column can mean. */
export const fits = (value: number, { kind, minimum = -Infinity, maximum = Infinity }: RecordColumn): boolean =>
  value >= minimum && value <= maximum && Number.isFinite(value) && (kind !== 'integer' || Number.isInteger(value));
