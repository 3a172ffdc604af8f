import { StatisticsError } from './statistics-error.ts';
import type { SurvivalCurve } from './kaplan-meier.ts';

export interface QuantileOptions {
  /**
   * Where the curve stays exactly at 1 − fraction for a while: its first time (the rule of the books,
   * default) or the middle of the stretch.
   */
  readonly flat?: 'first' | 'midpoint';
}

/** A life by which a given fraction has failed. Null where the curve, or its limit, does not get that far. */
export interface Quantile {
  readonly fraction: number;
  readonly value: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly robustLower?: number | null;
  readonly robustUpper?: number | null;
}

/** Curves are products of rounded ratios: a step that should land on 1 − fraction may miss it by this much. */
const TOLERANCE = 1e-12;

/**
 * Life at a fraction failed (0.1 for B10, 0.5 for the median): the first time S is at or below
 * 1 − fraction. Limits are where the curve's own lower and upper limits first get there, so they are
 * on the scale, level and errors of the curve.
 * With no event at all, value and upper are null and `lower` is how far the zero-event bound carries.
 *
 * Source: Brookmeyer & Crowley 1982; Klein & Moeschberger §4.5.
 * Outside check: R survival 3.5-3 `quantile.survfit` (its midpoint rule with `flat: 'midpoint'`), 1e-9.
 *
 * @throws StatisticsError when `fraction` is not strictly between 0 and 1.
 */
export function quantile(curve: SurvivalCurve, fraction: number, options: QuantileOptions = {}): Quantile {
  if (!(fraction > 0 && fraction < 1)) throw new StatisticsError('fraction', `${fraction} is not between 0 and 1`);
  const target = 1 - fraction + TOLERANCE;
  const find = (values: Float64Array): number | null => firstTime(curve, values, target, options.flat ?? 'first');
  const findUpper = (values: Float64Array): number | null =>
    // That the last lives at risk all failed does not make it certain that nothing could outlive them.
    firstTime(curve, values, target, options.flat ?? 'first', 0);
  const robust =
    curve.robustLower && curve.robustUpper
      ? { robustLower: find(curve.robustLower), robustUpper: findUpper(curve.robustUpper) }
      : {};
  return {
    fraction,
    value: find(curve.survival),
    lower: find(curve.lower),
    upper: findUpper(curve.upper),
    ...robust,
  };
}

function firstTime(
  { time, survival }: SurvivalCurve,
  values: Float64Array,
  target: number,
  flat: 'first' | 'midpoint',
  beyond = -Infinity,
): number | null {
  const places = time.length;
  // Zero-event bounds belong to no step of the curve: they count only where there is no step at all.
  const anyEvent = places > 0 && (survival[places - 1] as number) < 1;
  let place = 0;
  while (place < places && ((anyEvent && survival[place] === 1) || (values[place] as number) > target)) place++;
  if (place === places || (survival[place] as number) <= beyond) return null;
  const first = time[place] as number;
  if (flat === 'first' || (values[place] as number) < target - 2 * TOLERANCE) return first;
  let after = place;
  while (after < places - 1 && (values[after] as number) >= target - 2 * TOLERANCE) after++;
  return (first + (time[after] as number)) / 2;
}
