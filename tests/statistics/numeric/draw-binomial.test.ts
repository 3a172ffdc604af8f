import { describe, expect, it } from 'vitest';
import { drawBinomial } from '../../../lib/statistics/numeric/draw-binomial.ts';
import { createRandom } from '../../../lib/statistics/numeric/random.ts';

describe('drawBinomial', () => {
  it.each([
    [1, 0.3],
    [40, 0.02],
    [300, 0.5],
    [2000, 0.97],
  ])('%i trials at %f: mean and variance within five of their errors (20,000 draws)', (trials, p) => {
    const random = createRandom(trials);
    let [sum, square] = [0, 0];
    for (let k = 0; k < 20_000; k++) {
      const x = drawBinomial(trials, p, random);
      expect(Number.isInteger(x) && x >= 0 && x <= trials).toBe(true);
      sum += x;
      square += (x - trials * p) ** 2;
    }
    const variance = trials * p * (1 - p);
    expect(Math.abs(sum / 20_000 - trials * p)).toBeLessThan(5 * Math.sqrt(variance / 20_000));
    // Variance of the squared deviation: variance² (2 + (1 − 6 p (1 − p)) / variance).
    const spread = variance * Math.sqrt((2 + (1 - 6 * p * (1 - p)) / variance) / 20_000);
    expect(Math.abs(square / 20_000 - variance)).toBeLessThan(5 * spread);
  });

  it('sure and impossible', () => {
    const random = createRandom(1);
    expect(drawBinomial(7, 1, random)).toBe(7);
    expect(drawBinomial(7, 0, random)).toBe(0);
    expect(drawBinomial(0, 0.5, random)).toBe(0);
  });
});
