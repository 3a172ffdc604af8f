import { displayUnit, type UnitSystem } from '../../../shared/units.ts';
import type { Axis } from '../../../shared/view.ts';
import { ageAxes } from '../age-axis.ts';

/** How numbers are written in sentences: rounded to what can be remembered, in the reader's units. */
export interface Wording {
  /** Whose units are said. */
  readonly system: UnitSystem;
  readonly axis: Axis;
  /** `74,000 miles`. */
  readonly miles: (value: number) => string;
  /** An age, or a stretch of one, in what the axis counts: `74,000 miles`, `36 months`. */
  readonly age: (value: number) => string;
  /** `(66,000 to 83,000)`, `(66,000 or more)`, `(at most 83,000)`; empty where neither end is known. */
  readonly ageRange: (limits: Limits) => string;
  /** What ages are counted in: `miles`, `months`; and the least of it: `mile`, `day`. */
  readonly ageName: string;
  readonly least: string;
  /** `1.73`; the unit is `per`. */
  readonly rate: (value: number) => string;
  readonly rateRange: (limits: Limits) => string;
  /** `per million wheel-end miles`, `per 100 wheel-end years`. */
  readonly per: string;
  /** The age between events that come at a rate. */
  readonly every: (rate: number) => string;
  /** What was watched: `1.2 million wheel-end miles`, `340 wheel-end years`. */
  readonly watched: (group: { readonly miles: number; readonly counts: Readonly<Record<string, number>> }) => string;
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

/** Months to the whole, and finer where they are few. */
const calendar = (value: number): string =>
  value >= 10 ? count(Math.round(value)) : value.toFixed(1).replace('.0', '');

export function wording(system: UnitSystem = 'us', axis: Axis = 'miles'): Wording {
  const unit = system === 'us' ? 'miles' : 'km';
  const { factor } = displayUnit('miles', system);
  const miles = (value: number) => `${distance(value * factor)} ${unit}`;
  return axis === 'months' ? { system, miles, ...inMonths } : { system, miles, ...inMiles(system, unit, miles) };
}

function inMiles(system: UnitSystem, unit: string, miles: Wording['miles']): Omit<Wording, 'miles' | 'system'> {
  const { factor } = displayUnit('miles', system);
  const perMillion = displayUnit('perMillionMiles', system);
  const rate = (value: number) => threeDigits(value * perMillion.factor);
  return {
    axis: 'miles',
    ...{ age: miles, ageRange: (limits) => range(limits, (value) => distance(value * factor)), ageName: 'miles' },
    ...{ least: 'mile', rate, rateRange: (limits) => range(limits, rate), per: `per million wheel-end ${unit}` },
    every: (value) => miles(ageAxes.miles.factor / value),
    watched: (group) => `${distance(group.miles * factor)} wheel-end ${unit}`,
  };
}

const months = (value: number) => `${calendar(value)} ${calendar(value) === '1' ? 'month' : 'months'}`;

const inMonths: Omit<Wording, 'miles' | 'system'> = {
  axis: 'months',
  ...{ age: months, ageRange: (limits) => range(limits, calendar), ageName: 'months', least: 'day' },
  ...{ rate: threeDigits, rateRange: (limits) => range(limits, threeDigits), per: 'per 100 wheel-end years' },
  every: (value) => months(ageAxes.months.factor / value),
  watched: ({ counts }) => counted(Math.round(counts['wheelEndYears'] ?? 0), 'wheel-end year'),
};
