import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { eValue, StatisticsError } from '../../lib/statistics/index.ts';

describe('eValue against the worked examples of VanderWeele & Ding (2017)', () => {
  it.each([
    // Ratio, limits, E-value of the estimate and of the limit as printed (to the digits printed).
    [{ value: 3.9, lower: 1.8, upper: 8.7 }, 7.26, 3.0, 2, 1],
    [{ value: 0.8, lower: 0.71, upper: 0.91 }, 1.81, 1.43, 2, 2],
  ])('%o', (ratio, value, limit, digits, limitDigits) => {
    const got = eValue(ratio);
    expect(got.value).toBeCloseTo(value, digits);
    expect(got.limit).toBeCloseTo(limit, limitDigits);
  });
});

describe('eValue by hand', () => {
  it('a ratio of 2: 2 + √2; of one half the same; of 4/3: 2', () => {
    expect(eValue({ value: 2 })).toEqual({ value: 2 + Math.SQRT2, limit: null });
    expect(eValue({ value: 0.5 }).value).toBeCloseTo(2 + Math.SQRT2, 14);
    expect(eValue({ value: 4 / 3 }).value).toBeCloseTo(2, 14);
  });

  it('common failures: √OR, and for a hazard ratio of 4 the risks (1 − ¼)/(1 − 2^(−½))', () => {
    expect(eValue({ value: 4 }, { measure: 'odds', common: true }).value).toBeCloseTo(2 + Math.SQRT2, 14);
    const risk = 0.75 / (1 - Math.SQRT1_2);
    expect(eValue({ value: 4 }, { measure: 'hazard', common: true }).value).toBeCloseTo(
      risk + Math.sqrt(risk * (risk - 1)),
      13,
    );
    expect(eValue({ value: 4 }, { measure: 'hazard' }).value).toBeCloseTo(4 + Math.sqrt(12), 14);
  });

  it('the limit: 1 where the interval holds the null or is open towards it', () => {
    expect(eValue({ value: 2, lower: 0.9, upper: 4 }).limit).toBe(1);
    expect(eValue({ value: 2, upper: 4 }).limit).toBe(1);
    expect(eValue({ value: 2, lower: 4 / 3, upper: null }).limit).toBeCloseTo(2, 14);
    expect(eValue({ value: 1, lower: 0.5, upper: 2 })).toEqual({ value: 1, limit: 1 });
  });

  it('to a ratio other than 1: 4 explained away to 2 is as 2 to 1', () => {
    expect(eValue({ value: 4 }, { nullRatio: 2 }).value).toBeCloseTo(2 + Math.SQRT2, 14);
  });
});

describe('eValue laws', () => {
  it('a ratio and its inverse need the same; farther from 1 needs more; the bias formula gives the ratio back', () => {
    fc.assert(
      fc.property(fc.double({ min: 1.0001, max: 1e4, noNaN: true }), (ratio) => {
        const { value } = eValue({ value: ratio });
        expect(eValue({ value: 1 / ratio }).value / value).toBeCloseTo(1, 10);
        // Ding & VanderWeele 2016: two associations of strength E bias by E²/(2E − 1) at most.
        expect(value ** 2 / (2 * value - 1) / ratio).toBeCloseTo(1, 9);
      }),
    );
  });
});

describe('eValue on degenerate input', () => {
  it.each([
    ['value', { value: 0 }],
    ['value', { value: NaN }],
    ['value', { value: Infinity }],
    ['lower', { value: 2, lower: 3 }],
    ['upper', { value: 2, upper: 1 }],
  ])('%s at fault: %o', (argument, ratio) => {
    expect(() => eValue(ratio)).toThrow(StatisticsError);
    expect(() => eValue(ratio)).toThrow(argument);
  });
});
