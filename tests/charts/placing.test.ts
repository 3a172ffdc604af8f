import { describe, expect, test } from 'vitest';
import fc from 'fast-check';
import { niceAxis, ticksWithin } from '../../lib/charts/nice-axis.ts';
import { spreadLabels } from '../../lib/charts/spread-labels.ts';
import { fitText, textWidth } from '../../lib/charts/text-width.ts';

describe('spreadLabels', () => {
  test('leaves labels alone that stand apart', () => {
    expect(spreadLabels([10, 90, 50], 16, 0, 100)).toEqual([10, 90, 50]);
  });

  test('parts two on one spot by half the gap each way', () => {
    expect(spreadLabels([50, 50], 16, 0, 100)).toEqual([42, 58]);
  });

  test('never lets two touch nor one leave the frame, whatever is wanted', () => {
    const place = fc.double({ min: -50, max: 450, noNaN: true });
    fc.assert(
      fc.property(fc.array(place, { minLength: 1, maxLength: 20 }), (wanted) => {
        const places = spreadLabels(wanted, 16, 0, 400);
        const sorted = [...places].sort((a, b) => a - b);
        expect(sorted[0]).toBeGreaterThanOrEqual(0);
        expect(sorted.at(-1)).toBeLessThanOrEqual(400 + 1e-9);
        sorted
          .slice(1)
          .forEach((value, index) => expect(value - (sorted[index] ?? 0)).toBeGreaterThanOrEqual(16 - 1e-9));
      }),
    );
  });

  test('shares the room where more labels come than fit', () => {
    expect(spreadLabels([0, 0, 0, 0, 0], 16, 0, 40)).toEqual([0, 10, 20, 30, 40]);
  });
});

describe('niceAxis', () => {
  test.each([
    [3.4, 5, 4, [0, 1, 2, 3, 4]],
    [480_000, 6, 500_000, [0, 100_000, 200_000, 300_000, 400_000, 500_000]],
    [0.041, 5, 0.05, [0, 0.01, 0.02, 0.03, 0.04, 0.05]],
    [0, 5, 1, [0, 0.2, 0.4, 0.6, 0.8, 1]],
  ])('reaches past %d in at most %d steps', (reach, most, end, ticks) => {
    expect(niceAxis(reach, most)).toEqual({ end, ticks });
  });
});

describe('fitText', () => {
  test('keeps what fits and cuts what does not, within the room', () => {
    expect(fitText('drive', 13, 200)).toBe('drive');
    const cut = fitText('semi-fluid grease · bearings packed with grease in an oil bath', 13, 120);
    expect(cut.endsWith('…')).toBe(true);
    expect(textWidth(cut, 13)).toBeLessThanOrEqual(120);
  });
});

describe('ticksWithin', () => {
  // By hand: two steps of 500,000 do not fit in 490,000, four of 200,000 leave three marks.
  test('never leaves an axis with the mark at nothing alone', () => {
    expect(ticksWithin(490_000, 2)).toEqual([0, 200_000, 400_000]);
    expect(ticksWithin(700_000, 2)).toEqual([0, 500_000]);
    expect(ticksWithin(0, 3).length).toBeGreaterThan(0);
  });
});
