import { describe, expect, it } from 'vitest';
import {
  logNormalDensity,
  logNormalInterval,
  logNormalSurvival,
  normalHazard,
  standardNormalQuantile,
} from '../../../lib/statistics/numeric/normal.ts';

const relative = (actual: number, expected: number) => Math.abs(actual / expected - 1);

describe('normal tails against R 4.2 (pnorm, qnorm)', () => {
  // R: pnorm(z, lower.tail = FALSE, log.p = TRUE)
  it.each([
    [-8, -6.220960574271786e-16],
    [-1, -0.17275377902344988],
    [0, -0.6931471805599453],
    [3, -6.607726221510347],
    [38, -726.557216018378],
  ])('log P(Z > %f)', (z, expected) => {
    expect(relative(logNormalSurvival(z), expected)).toBeLessThan(1e-12);
  });

  it('quantiles: qnorm(0.975) and qnorm(1e-10)', () => {
    expect(relative(standardNormalQuantile(0.975), 1.959963984540054)).toBeLessThan(1e-14);
    expect(relative(standardNormalQuantile(1e-10), -6.361340902404056)).toBeLessThan(1e-13);
    for (const p of [1e-300, 1e-12, 0.2, 0.5, 0.8, 1 - 1e-9]) {
      const z = standardNormalQuantile(p);
      expect(relative(Math.exp(logNormalSurvival(-z)), p)).toBeLessThan(1e-11);
    }
  });

  it('hazard is density over tail, and z + 1/z − 2/z³ + 10/z⁵ far out', () => {
    for (const z of [-5, -1, 0, 1, 6])
      expect(relative(normalHazard(z), Math.exp(logNormalDensity(z) - logNormalSurvival(z)))).toBeLessThan(1e-12);
    expect(relative(normalHazard(1000), 1000 + 1e-3 - 2e-9 + 10e-15)).toBeLessThan(1e-14);
    expect(normalHazard(-50)).toBe(0);
  });
});

describe('log P(a < Z ≤ a + w)', () => {
  it('is the difference of the tails where that keeps its digits', () => {
    for (const [from, width] of [
      [-1, 2],
      [-3, 0.9],
      [0.5, 3],
      [-6, 12],
    ] as const) {
      const direct = Math.exp(logNormalSurvival(from)) - Math.exp(logNormalSurvival(from + width));
      expect(Math.abs(logNormalInterval(from, width) - Math.log(direct))).toBeLessThan(1e-14);
    }
  });

  it('of a narrow interval is the density times the width, to second order w² (z² − 1) / 24', () => {
    for (const z of [-7, -0.3, 0, 2, 9])
      for (const width of [1e-3, 1e-9]) {
        const expected = logNormalDensity(z) + Math.log(width) + (width ** 2 * (z * z - 1)) / 24;
        expect(Math.abs(logNormalInterval(z - width / 2, width) - expected)).toBeLessThan(1e-11);
      }
  });

  it('is the same from either side of zero, and adds up over neighbours', () => {
    for (const [from, width] of [
      [4, 0.7],
      [12, 2],
      [-0.2, 0.1],
    ] as const) {
      expect(relative(logNormalInterval(from, width), logNormalInterval(-from - width, width))).toBeLessThan(1e-12);
      const halves = [logNormalInterval(from, width / 2), logNormalInterval(from + width / 2, width / 2)] as const;
      const top = Math.max(...halves);
      const sum = top + Math.log(Math.exp(halves[0] - top) + Math.exp(halves[1] - top));
      expect(relative(logNormalInterval(from, width), sum)).toBeLessThan(1e-12);
    }
  });
});
