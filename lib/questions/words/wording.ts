import { displayUnit, type UnitSystem } from '../../../shared/units.ts';

/** How numbers are written in sentences: rounded to what can be remembered, in the reader's units. */
export interface Wording {
  /** `74,000 miles`. */
  readonly miles: (value: number) => string;
  /** `(66,000 to 83,000)`, `(66,000 or more)`, `(at most 83,000)`; empty where neither end is known. */
  readonly milesRange: (limits: Limits) => string;
  /** `1.73`, events per million wheel-end miles (or kilometres); the unit is `perMillion`. */
  readonly rate: (value: number) => string;
  readonly rateRange: (limits: Limits) => string;
  /** `per million wheel-end miles`. */
  readonly perMillion: string;
  /** `wheel-end miles`. */
  readonly wheelEndMiles: string;
}

export interface Limits {
  readonly lower: number | null;
  readonly upper: number | null;
}

/** The value rounded to so many significant digits, thousands separated. */
export function significant(value: number, digits: number): string {
  return new Intl.NumberFormat('en-US', { maximumSignificantDigits: digits }).format(value);
}

/** Three digits, the zeros of `3.00` kept. */
const threeDigits = (value: number): string =>
  value >= 0.01 && value < 999.5 ? value.toPrecision(3) : significant(value, 3);

/** A ratio to two digits, the zero of `1.0` kept. */
export const ratioText = (value: number): string =>
  value >= 10 || value < 0.01 ? significant(value, 2) : value.toPrecision(2);

export const count = (value: number): string => new Intl.NumberFormat('en-US').format(value);

/** `1 failure`, `12 failures`, `no failures`. */
export const counted = (value: number, one: string, many = `${one}s`): string =>
  `${value === 0 ? 'no' : count(value)} ${value === 1 ? one : many}`;

/** Distances are said to the nearest 1,000 from 20,000 on, and finer below. */
function distance(value: number): string {
  if (value >= 999_500) return `${significant(value / 1e6, 3)} million`;
  const step = value >= 20_000 ? 1000 : value >= 2000 ? 100 : value >= 200 ? 10 : 1;
  return count(Math.round(value / step) * step);
}

/** `(a to b)`; both ends written by the same rule; an end that is null is open. */
export function range({ lower, upper }: Limits, write: (value: number) => string): string {
  if (lower === null && upper === null) return '';
  if (upper === null) return `(${write(lower as number)} or more)`;
  if (lower === null) return `(at most ${write(upper)})`;
  return `(${write(lower)} to ${write(upper)})`;
}

export function wording(system: UnitSystem = 'us'): Wording {
  const miles = displayUnit('miles', system);
  const perMillion = displayUnit('perMillionMiles', system);
  const unit = system === 'us' ? 'miles' : 'km';
  const write = (value: number) => distance(value * miles.factor);
  const writeRate = (value: number) => threeDigits(value * perMillion.factor);
  return {
    miles: (value) => `${write(value)} ${unit}`,
    milesRange: (limits) => range(limits, write),
    rate: writeRate,
    rateRange: (limits) => range(limits, writeRate),
    perMillion: `per million wheel-end ${unit}`,
    wheelEndMiles: `wheel-end ${unit}`,
  };
}
