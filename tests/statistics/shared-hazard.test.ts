import { describe, expect, it } from 'vitest';
import {
  createRandom,
  drawnLimits,
  drawnShare,
  drawParameters,
  fittedHazard,
  forecastFailures,
  sharedHazardVariance,
  withSharedHazard,
} from '../../lib/statistics/index.ts';
import type { FittedLife } from '../../lib/statistics/index.ts';

const weibull = (shape: number, scale: number, error = 1e-9): FittedLife => ({
  distribution: 'weibull',
  working: {
    ...{ names: [], values: Float64Array.from([Math.log(scale), -Math.log(shape)]), robustCovariance: null },
    covariance: Float64Array.from([error * error, 0, 0, error * error]),
  },
  ...{ converged: true, observedTo: Infinity },
});

const moments = (values: Float64Array) => {
  const mean = values.reduce((sum, one) => sum + one, 0) / values.length;
  return { mean, variance: values.reduce((sum, one) => sum + (one - mean) ** 2, 0) / values.length };
};

describe('fittedHazard', () => {
  it('is (exit / scale)^shape − (entry / scale)^shape of a Weibull', () => {
    const hazard = fittedHazard(weibull(2, 100), { entry: [0, 30, 50], exit: [50, 70, 50] });
    [0.25, 0.49 - 0.09, 0].forEach((expected, row) => expect(hazard[row]).toBeCloseTo(expected, 12));
  });
  it('refuses an exit before its entry', () => {
    expect(() => fittedHazard(weibull(2, 100), { entry: [5], exit: [4] })).toThrow('exit[0]: 4 is before entry');
  });
});

describe('sharedHazardVariance', () => {
  const cluster = ['a', 'a', 'b', 'b', 'c'];
  const expected = [1, 1, 1, 1, 2];
  it('by hand: clusters of 2 expected with 5, 0 and 1 seen', () => {
    // Σ((O − E)² − E) = (9 − 2) + (4 − 2) + (1 − 2) = 8; Σ E² = 12.
    expect(sharedHazardVariance({ observed: [3, 2, 0, 0, 1], expected, cluster })).toBeCloseTo(8 / 12, 12);
  });
  it('is none where clusters differ by less than chance', () => {
    expect(sharedHazardVariance({ observed: [1, 1, 2, 0, 2], expected, cluster })).toBe(0);
  });
  it('finds a gamma factor of variance 0.5 (2,000 clusters of 3 expected, seed 3)', () => {
    const random = createRandom(3);
    const each = Array.from({ length: 2000 }, (_, k) => ({ k, seen: random.poisson(3 * random.gamma(2) * 0.5) }));
    const found = sharedHazardVariance({
      ...{ observed: each.map(({ seen }) => seen), expected: each.map(() => 3), cluster: each.map(({ k }) => k) },
    });
    expect(Math.abs(found - 0.5)).toBeLessThan(0.08);
  });
});

describe('withSharedHazard', () => {
  it('keeps the mean and adds variance · Σ m² of the clusters (closed form; 20,000 draws, seed 4)', () => {
    const random = createRandom(4);
    const drawn = new Float64Array(20_000).fill(100);
    // 20 clusters of 5 expected each, variance 0.8: 0.8 · 20 · 25 = 400.
    const expected = Array.from({ length: 20 }, () => 5);
    const { mean, variance } = moments(
      withSharedHazard({ drawn, expected, cluster: expected.map((_, at) => at) }, 0.8, random),
    );
    expect(Math.abs(mean - 100)).toBeLessThan(0.6);
    expect(Math.abs(variance / 400 - 1)).toBeLessThan(0.05);
  });
  it('changes nothing where nothing is shared', () => {
    const drawn = Float64Array.from([3, 4]);
    expect(withSharedHazard({ drawn, expected: [1, 2], cluster: [0, 0] }, 0, createRandom(1))).toEqual(drawn);
  });
});

describe('drawnShare', () => {
  it('has the mean and variance of a beta-binomial (closed form; 20,000 draws, seed 5)', () => {
    const [n, a, b] = [40, 6.5, 14.5];
    const { mean, variance } = moments(
      drawnShare(new Float64Array(20_000).fill(n), { events: 6, total: 20 }, createRandom(5)),
    );
    const share = a / (a + b);
    expect(Math.abs(mean - n * share)).toBeLessThan(0.15);
    expect(Math.abs(variance / ((n * share * (1 - share) * (a + b + n)) / (a + b + 1)) - 1)).toBeLessThan(0.05);
  });
  it('refuses more with the mark than were seen', () => {
    expect(() => drawnShare(new Float64Array(1), { events: 3, total: 2 }, createRandom(1))).toThrow('events: 3');
  });
});

describe('draws of one fit shared by several forecasts', () => {
  it('their sum has the limits of the forecast of all together', () => {
    const fit = weibull(1.5, 100, 0.15);
    const options = { ahead: 20, draws: 4000 };
    const age = Array.from({ length: 120 }, (_, k) => k);
    const random = createRandom(8);
    const parameters = drawParameters(fit, { random, draws: 4000 });
    const halves = [age.slice(0, 60), age.slice(60)].map((own) =>
      forecastFailures(fit, { age: own }, { ...options, random, parameters }),
    );
    const sum = Float64Array.from({ length: 4000 }, (_, draw) =>
      halves.reduce((total, { drawn }) => total + (drawn[draw] as number), 0),
    );
    const whole = forecastFailures(fit, { age }, { ...options, random: createRandom(9) });
    const { lower, upper } = drawnLimits(sum, 0.95);
    expect(Math.abs(lower - (whole.failures.lower as number))).toBeLessThanOrEqual(1);
    expect(Math.abs(upper - (whole.failures.upper as number))).toBeLessThanOrEqual(1);
  });
});
