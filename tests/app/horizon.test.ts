import { describe, expect, test } from 'vitest';
import fc from 'fast-check';
import { defaultView } from '../../shared/view.ts';
import { movedBy, rulerFor, snapped } from '../../app/_parts/scope/horizon.ts';

describe('the mile ruler', () => {
  test('reaches 500,000 miles or 800,000 km, and further where the horizon lies beyond', () => {
    expect(rulerFor({ ...defaultView, horizonMiles: 100_000 }, 'us').end).toBe(500_000);
    expect(rulerFor({ ...defaultView, horizonMiles: 100_000 }, 'metric').end).toBe(800_000);
    expect(rulerFor({ ...defaultView, horizonMiles: 700_000 }, 'us').end).toBe(1_000_000);
    // 700,000 mi × 1.609344 = 1,126,541 km.
    expect(rulerFor({ ...defaultView, horizonMiles: 700_000 }, 'metric').end).toBe(1_500_000);
  });

  test('counts months to ten years, and by tens of years beyond', () => {
    const months = (horizonMonths: number) => rulerFor({ ...defaultView, axis: 'months', horizonMonths }, 'metric');
    expect(months(36)).toMatchObject({ factor: 1, symbol: 'months', step: 1, end: 120 });
    expect(months(121).end).toBe(240);
  });

  const ruler = rulerFor({ ...defaultView, horizonMiles: 100_000 }, 'us');
  test.each([
    ['ArrowRight', 100_000, 105_000],
    ['ArrowLeft', 100_000, 95_000],
    ['PageUp', 100_000, 150_000],
    ['PageDown', 20_000, 5_000],
    ['Home', 100_000, 5_000],
    ['End', 100_000, 500_000],
    ['ArrowRight', 500_000, 500_000],
  ])('%s from %d goes to %d', (key, from, to) => expect(movedBy(key, from, ruler)).toBe(to));

  test.each(['a', 'Enter', 'Tab', 'toString'])('%s moves nothing', (key) =>
    expect(movedBy(key, 100_000, ruler)).toBeNull(),
  );

  test('wherever it is dropped, the mark stands on a step within the ruler', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 2e6, noNaN: true }), (at) => {
        const place = snapped(at, ruler);
        expect(place % ruler.step).toBe(0);
        expect(place).toBeGreaterThan(0);
        expect(place).toBeLessThanOrEqual(ruler.end);
      }),
    );
  });
});
