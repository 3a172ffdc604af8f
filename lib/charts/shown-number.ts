import { shownLimits, type Estimate } from '../../shared/finding.ts';
import { displayUnit, type UnitSystem } from '../../shared/units.ts';
import type { Axis } from '../../shared/view.ts';

export interface ShownQuantity {
  /** Unit as written in an axis title or a column head; empty for a plain number. */
  readonly symbol: string;
  /** Shown value = stored value × factor. */
  readonly factor: number;
  /** Text of a shown value. */
  readonly text: (shown: number) => string;
}

const grouped = (digits: number) =>
  new Intl.NumberFormat('en-US', { maximumFractionDigits: digits, minimumFractionDigits: digits });
const whole = grouped(0);

/** Three significant digits without an exponent: 0.0412, 1.73, 24.6, 3,310. */
function threeDigits(value: number): string {
  if (value === 0) return '0';
  const magnitude = Math.floor(Math.log10(Math.abs(value)));
  const digits = Math.min(6, Math.max(0, 2 - magnitude));
  return grouped(digits).format(value);
}

/** Long distances to the hundred, which is finer than any odometer reading behind them. */
const distance = (value: number): string =>
  whole.format(Math.abs(value) >= 10_000 ? Math.round(value / 100) * 100 : Math.round(value));

/** Things that are to come: whole from ten on. */
const counts: ShownQuantity = {
  ...{ symbol: '', factor: 1, text: (shown) => (shown >= 10 ? whole.format(shown) : threeDigits(shown)) },
};

const quantities: Readonly<Record<string, (system: UnitSystem) => ShownQuantity>> = {
  miles: (system) => ({ ...displayUnit('miles', system), text: distance }),
  months: () => ({ symbol: 'months', factor: 1, text: (shown) => grouped(shown < 10 ? 1 : 0).format(shown) }),
  'per million miles': (system) => ({ ...displayUnit('perMillionMiles', system), text: threeDigits }),
  'per 100 wheel-end years': () => ({ symbol: 'per 100 wheel-end years', factor: 1, text: threeDigits }),
  'money per million miles': (system) => ({
    ...displayUnit('perMillionMiles', system),
    text: threeDigits,
  }),
  money: () => ({ symbol: '', factor: 1, text: (shown) => whole.format(Number(shown.toPrecision(3))) }),
  failures: () => counts,
  linings: () => counts,
  'per 1,000 installations': () => ({ symbol: 'per 1,000', factor: 1, text: threeDigits }),
  share: () => ({ symbol: '%', factor: 100, text: (shown) => grouped(1).format(shown) }),
};

const plain: ShownQuantity = { symbol: '', factor: 1, text: threeDigits };

/** How numbers of a finding's unit are shown; a unit without an entry is shown as it is stored. */
export const shownQuantity = (unit: string, system: UnitSystem): ShownQuantity => quantities[unit]?.(system) ?? plain;

/** `92,300–113,000`, `from 51,000` or `up to 4.1`: an interval whose open side is said, not drawn as a number. */
export function intervalText(estimate: Estimate, quantity: ShownQuantity): string {
  const { lower, upper } = shownLimits(estimate);
  const text = (limit: number) => quantity.text(limit * quantity.factor);
  // Beside a minus a dash would read as another.
  if (lower !== null && upper !== null) return `${text(lower)}${lower < 0 ? ' to ' : '–'}${text(upper)}`;
  if (lower !== null) return `from ${text(lower)}`;
  return upper === null ? '' : `up to ${text(upper)}`;
}

/** An age in words, as the axis counts it: `100,000 mi`, `36 months`. */
export const ageSays = (age: number, axis: Axis, system: UnitSystem): string =>
  axis === 'months' ? `${grouped(Number.isInteger(age) ? 0 : 1).format(age)} months` : distanceSays(age, system);

/** A distance in words: `100,000 mi` or `160,900 km`. */
export function distanceSays(miles: number, system: UnitSystem): string {
  const { symbol, factor } = displayUnit('miles', system);
  return `${whole.format(Math.round(miles * factor))} ${symbol}`;
}
