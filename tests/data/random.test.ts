// Expectations are closed forms of the distributions; the allowance is five standard errors.
import { describe, expect, it } from 'vitest';
import { Random } from '../../data/demo/random.ts';

const DRAWS = 100_000;
const sample = (draw: (random: Random) => number, key = 0) => {
  const random = new Random(4, key);
  return Array.from({ length: DRAWS }, () => draw(random));
};
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const shareBelow = (values: readonly number[], limit: number) =>
  values.filter((value) => value < limit).length / values.length;
const fiveErrors = (variance: number) => 5 * Math.sqrt(variance / DRAWS);

describe('Random', () => {
  it('draws uniforms with mean 1/2 and variance 1/12', () => {
    const values = sample((random) => random.uniform());
    expect(Math.abs(mean(values) - 1 / 2)).toBeLessThan(fiveErrors(1 / 12));
    // The fourth central moment of a uniform is 1/80, so the variance of (u − 1/2)² is 1/80 − 1/144.
    expect(Math.abs(mean(values.map((value) => (value - 0.5) ** 2)) - 1 / 12)).toBeLessThan(
      fiveErrors(1 / 80 - 1 / 144),
    );
    expect(Math.min(...values.slice(0, 1_000))).toBeGreaterThan(0);
  });

  it('draws normals with mean 0, variance 1 and fourth moment 3', () => {
    const values = sample((random) => random.normal());
    expect(Math.abs(mean(values))).toBeLessThan(fiveErrors(1));
    expect(Math.abs(mean(values.map((value) => value ** 2)) - 1)).toBeLessThan(fiveErrors(2));
    // Var(z⁴) = 105 − 9.
    expect(Math.abs(mean(values.map((value) => value ** 4)) - 3)).toBeLessThan(fiveErrors(96));
  });

  it('draws Weibulls whose median is scale × (ln 2)^(1/shape)', () => {
    const values = sample((random) => random.weibull(2.1, 500_000));
    expect(Math.abs(shareBelow(values, 500_000 * Math.LN2 ** (1 / 2.1)) - 1 / 2)).toBeLessThan(fiveErrors(1 / 4));
  });

  it('draws frailties with mean 1 and the variance asked for', () => {
    for (const variance of [0.1, 0.25, 1]) {
      const values = sample((random) => random.frailty(variance));
      expect(Math.abs(mean(values) - 1)).toBeLessThan(fiveErrors(variance));
      // Gamma with shape 1/v and mean 1: the fourth central moment is 3v² + 6v³.
      const spread = fiveErrors(3 * variance ** 2 + 6 * variance ** 3 - variance ** 2);
      expect(Math.abs(mean(values.map((value) => (value - 1) ** 2)) - variance)).toBeLessThan(spread);
    }
    expect(() => new Random(1, 1).frailty(1.5)).toThrow(RangeError);
  });

  it('draws an index by its share', () => {
    const values = sample((random) => random.weighted([0.2, 0.5, 0.3]));
    [0.2, 0.5, 0.3].forEach((share, index) => {
      const seen = values.filter((value) => value === index).length / DRAWS;
      expect(Math.abs(seen - share)).toBeLessThan(fiveErrors(share * (1 - share)));
    });
  });

  it('repeats itself for a seed and key, and differs for the next seed or key', () => {
    const first = (seed: number, key: number) => {
      const random = new Random(seed, key);
      return [random.uniform(), random.uniform(), random.uniform()];
    };
    expect(first(7, 3)).toEqual(first(7, 3));
    expect(first(7, 3)).not.toEqual(first(7, 4));
    expect(first(7, 3)).not.toEqual(first(8, 3));
  });

  it('gives unrelated streams to neighbouring keys', () => {
    const firsts = Array.from({ length: DRAWS }, (_, key) => new Random(27, key).uniform() - 0.5);
    const products = firsts.slice(1).map((value, index) => value * (firsts[index] as number));
    expect(Math.abs(mean(products))).toBeLessThan(fiveErrors(1 / 144));
  });
});
