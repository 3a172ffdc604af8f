import { describe, expect, it } from 'vitest';
import { kaplanMeier, quantile, StatisticsError, type SurvivalCurve } from '../../lib/statistics/index.ts';
import { check, loadCase } from '../reference/reference.ts';
import { INTERVALS, KAPLAN_MEIER_CASES } from './kaplan-meier-cases.ts';

describe('quantile against R survival 3.5-3 quantile.survfit', () => {
  it.each(KAPLAN_MEIER_CASES)('$id', ({ id, data, options }) => {
    const { expected, source } = loadCase(id);
    const about = { method: 'quantile', source: `${id}: ${source}` };
    for (const [interval, key] of INTERVALS) {
      const curves = kaplanMeier(data, { ...options, interval });
      for (const want of expected) {
        const curve = curves.find(({ group }) => group === want.group.replace(/^.*=/, '')) as SurvivalCurve;
        want.quantiles.probs.forEach((fraction: number, k: number) => {
          const first = quantile(curve, fraction);
          const middle = quantile(curve, fraction, { flat: 'midpoint' });
          const [lower, upper] = options?.robust
            ? [middle.robustLower, middle.robustUpper]
            : [middle.lower, middle.upper];
          const limits = want.quantiles[key];
          const anyEvent = curve.events.some((events) => events > 0);
          const pairs: [number | null | undefined, number | null][] = [
            [first.value, want.quantiles.first_time_at_or_below[k]],
            [middle.value, want.quantiles.estimate[k]],
            [upper, limits.upper[k]],
            // Where there is no event R says nothing; ours is the zero-event bound.
            ...(anyEvent ? ([[lower, limits.lower[k]]] as [number | null, number | null][]) : []),
          ];
          for (const [got, expectedValue] of pairs) {
            if (expectedValue === null) expect(got).toBeNull();
            else check(about, got as number, expectedValue, 1e-9);
          }
        });
      }
    }
  });
});

describe('quantile by hand', () => {
  const [curve] = kaplanMeier({ exit: [1, 2, 3, 4], event: [1, 1, 1, 1] }) as [SurvivalCurve];

  it('is the first time at or below, though products round, or the middle of the flat stretch', () => {
    expect(quantile(curve, 0.5)).toMatchObject({ fraction: 0.5, value: 2 });
    expect(quantile(curve, 0.5, { flat: 'midpoint' }).value).toBe(2.5);
    expect(quantile(curve, 0.6).value).toBe(3);
    // Ten equal steps: 1 − 7 steps is 0.30000000000000004 in floating point, yet counts as 0.3.
    const ten = Array.from({ length: 10 }, (_, k) => k + 1);
    expect(quantile(kaplanMeier({ exit: ten, event: ten.map(() => 1) })[0]!, 0.7).value).toBe(7);
  });

  it('is null where the curve does not get that far', () => {
    const [short] = kaplanMeier({ exit: [1, 2, 3], event: [1, 0, 0] });
    expect(quantile(short!, 0.5)).toMatchObject({ value: null, upper: null });
  });

  it('without events carries the zero-event bound as lower limit: 0.025^(1/n) ≤ 0.5 first for n = 5', () => {
    const exit = [1, 2, 3, 4, 5, 6, 7, 8];
    const [none] = kaplanMeier({ exit, event: exit.map(() => 0) });
    // At 4 five are at risk: 0.025^(1/5) = 0.478; at 3 six: 0.541.
    expect(quantile(none!, 0.5)).toEqual({ fraction: 0.5, value: null, lower: 4, upper: null });
  });

  it.each([0, 1, NaN, 10])('refuses the fraction %s', (fraction) => {
    expect(() => quantile(curve, fraction)).toThrow(StatisticsError);
  });
});
