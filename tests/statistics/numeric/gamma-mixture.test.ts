import { describe, expect, it } from 'vitest';
import { gammaMixtureQuantiles } from '../../../lib/statistics/numeric/gamma-mixture.ts';
import { gammaQuantile, lowerGamma } from '../../../lib/statistics/numeric/incomplete-gamma.ts';

describe('gammaMixtureQuantiles', () => {
  it.each([
    [0.11, 2],
    [0.9, 1],
    [3, 1e-6],
    [40, 5],
    [2500, 1e3],
  ])('one part, shape %f rate %f, is the gamma quantile', (shape, rate) => {
    const got = gammaMixtureQuantiles([{ shape, rate, weight: 1 }], [0.025, 0.5, 0.975]);
    [0.025, 0.5, 0.975].forEach((probability, i) => {
      expect((got[i] as number) / (gammaQuantile(probability, shape) / rate)).toBeCloseTo(1, 3);
      expect(lowerGamma(shape, (got[i] as number) * rate)).toBeCloseTo(probability, 3);
    });
  });

  it('a mixture of parts far apart: the weighted cdf at each quantile is its probability', () => {
    const parts = [
      { shape: 0.5, rate: 3, weight: 0.2 },
      { shape: 30, rate: 10, weight: 0.5 },
      { shape: 900, rate: 200, weight: 0.3 },
    ];
    const probabilities = [0.025, 0.15, 0.6, 0.975];
    gammaMixtureQuantiles(parts, probabilities).forEach((x, i) => {
      const cdf = parts.reduce((sum, { shape, rate, weight }) => sum + weight * lowerGamma(shape, x * rate), 0);
      expect(cdf).toBeCloseTo(probabilities[i] as number, 3);
    });
  });
});
