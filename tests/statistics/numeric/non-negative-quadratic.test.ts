import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { minimiseNonNegative, solveRidged } from '../../../lib/statistics/numeric/non-negative-quadratic.ts';

describe('minimiseNonNegative', () => {
  it('by hand: A = [[2, 1], [1, 2]], b = (2, −1) has its free top at (5/3, −4/3), so y = (1, 0)', () => {
    const y = minimiseNonNegative(Float64Array.of(2, 1, 1, 2), Float64Array.of(2, -1), Float64Array.of(1, 1));
    expect(y[0]).toBeCloseTo(1, 12);
    expect(y[1]).toBe(0);
  });

  it('meets the Kuhn-Tucker conditions: y ≥ 0, A y − b ≥ 0, one of the two zero', () => {
    const numbers = (length: number) =>
      fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: length, maxLength: length });
    fc.assert(
      fc.property(numbers(64), numbers(8), (root, b) => {
        const n = 8;
        const a = new Float64Array(n * n);
        for (let i = 0; i < n; i++)
          for (let j = 0; j < n; j++)
            for (let k = 0; k < n; k++)
              a[i * n + j] = (a[i * n + j] as number) + (root[i * n + k] as number) * (root[j * n + k] as number);
        for (let i = 0; i < n; i++) a[i * n + i] = (a[i * n + i] as number) + 0.1;
        const y = minimiseNonNegative(a, Float64Array.from(b), new Float64Array(n));
        for (let i = 0; i < n; i++) {
          let slope = -(b[i] as number);
          for (let j = 0; j < n; j++) slope += (a[i * n + j] as number) * (y[j] as number);
          expect(y[i]).toBeGreaterThanOrEqual(0);
          expect(slope).toBeGreaterThan(-1e-8);
          expect(Math.abs(slope * (y[i] as number))).toBeLessThan(1e-7);
        }
      }),
    );
  });

  it('a singular system gets one of its solutions', () => {
    const x = solveRidged(Float64Array.of(1, 1, 1, 1), 2, Float64Array.of(3, 3));
    expect((x[0] as number) + (x[1] as number)).toBeCloseTo(3, 6);
  });
});
