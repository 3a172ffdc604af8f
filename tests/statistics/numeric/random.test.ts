import { describe, expect, it } from 'vitest';
import { createRandom, type Random } from '../../../lib/statistics/numeric/random.ts';

const count = 200_000;

/** Mean and variance of many draws, as z-scores against the law's own (variance by its fourth moment). */
function scores(draw: (random: Random) => number, mean: number, variance: number, kurtosis: number): number[] {
  const random = createRandom(20_260_101);
  const draws = Float64Array.from({ length: count }, () => draw(random));
  const average = draws.reduce((sum, x) => sum + x, 0) / count;
  const spread = draws.reduce((sum, x) => sum + (x - mean) ** 2, 0) / count;
  return [(average - mean) / Math.sqrt(variance / count), (spread / variance - 1) / Math.sqrt((kurtosis - 1) / count)];
}

describe('createRandom', () => {
  it.each<[string, (random: Random) => number, number, number, number]>([
    // Mean, variance and kurtosis of each law in closed form.
    ['uniform', (r) => r.uniform(), 1 / 2, 1 / 12, 9 / 5],
    ['normal', (r) => r.normal(), 0, 1, 3],
    ['exponential', (r) => r.exponential(), 1, 1, 9],
    ['gamma 0.3', (r) => r.gamma(0.3), 0.3, 0.3, 3 + 6 / 0.3],
    ['gamma 7', (r) => r.gamma(7), 7, 7, 3 + 6 / 7],
    ['poisson 0.4', (r) => r.poisson(0.4), 0.4, 0.4, 3 + 1 / 0.4],
    ['poisson 90', (r) => r.poisson(90), 90, 90, 3 + 1 / 90],
    ['below 6', (r) => r.below(6), 2.5, 35 / 12, 303 / 175],
  ])('%s has the mean and the variance of its law', (_name, draw, mean, variance, kurtosis) => {
    for (const score of scores(draw, mean, variance, kurtosis)) expect(Math.abs(score)).toBeLessThan(4);
  });

  it('one seed, one stream; another seed, another', () => {
    const stream = (seed: number) =>
      Array.from(
        { length: 5 },
        (
          (random) => () =>
            random.uniform()
        )(createRandom(seed)),
      );
    expect(stream(1)).toEqual(stream(1));
    expect(stream(1)).not.toEqual(stream(2));
    expect(stream(2 ** 40)).not.toEqual(stream(2 ** 41));
  });

  it('uniforms fill 64 cells evenly, alone and in successive pairs (chi-square)', () => {
    const random = createRandom(7);
    const cells = new Float64Array(64);
    for (let i = 0; i < count; i++) {
      const cell = Math.floor(random.uniform() * 8) * 8 + Math.floor(random.uniform() * 8);
      cells[cell] = (cells[cell] as number) + 1;
    }
    const statistic = cells.reduce((sum, seen) => sum + (seen - count / 64) ** 2 / (count / 64), 0);
    // 63 degrees of freedom: P(χ² > 117) = 4e-5 and P(χ² < 28) = 4e-5.
    expect(statistic).toBeGreaterThan(28);
    expect(statistic).toBeLessThan(117);
  });

  it('refuses a seed that is not whole', () => expect(() => createRandom(0.5)).toThrow('seed'));
});
