import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitLife } from '../../lib/statistics/fit-life.ts';
import { forecastFailures } from '../../lib/statistics/forecast-failures.ts';
import { createRandom } from '../../lib/statistics/numeric/random.ts';
import type { FittedLife } from '../../lib/statistics/parameter-draws.ts';

const close = (actual: number | null | undefined, expected: number, tolerance = 1e-9) =>
  expect(Math.abs((actual ?? NaN) - expected)).toBeLessThanOrEqual(tolerance * Math.max(1, Math.abs(expected)));

function known(distribution: FittedLife['distribution'], values: number[], error = 1e-9): FittedLife {
  const n = values.length;
  const covariance = Float64Array.from({ length: n * n }, (_, k) => (k % (n + 1) === 0 ? error * error : 0));
  const working = { names: [], values: Float64Array.from(values), covariance, robustCovariance: null };
  return { distribution, working, converged: true, observedTo: Infinity };
}

describe('forecastFailures by hand', () => {
  it('exponential lives have no memory: every unit fails ahead with 1 − e^(−ahead / mean)', () => {
    const fit = known('exponential', [Math.log(100)]);
    const forecast = forecastFailures(fit, { age: [0, 5, 50, 500] }, { ahead: 20, random: createRandom(1) });
    for (const p of forecast.probability) close(p, 1 - Math.exp(-0.2));
    close(forecast.expected.value, 4 * (1 - Math.exp(-0.2)));
    expect(forecast.units).toBe(4);
  });

  it('Weibull shape 2, scale 10: from age a over M, 1 − e^(−((a + M)² − a²) / 100)', () => {
    const fit = known('weibull', [Math.log(10), -Math.LN2]);
    const age = [0, 3, 8];
    const { probability } = forecastFailures(fit, { age, ahead: [2, 4, 0] }, { random: createRandom(1) });
    [4, 40, 0].forEach((rise, row) => close(probability[row], 1 - Math.exp(-rise / 100)));
  });

  it('known lives: the interval is that of the binomial (R: qbinom(c(.025, .975), 40, 0.3) = 7, 18)', () => {
    const fit = known('exponential', [Math.log(-10 / Math.log(0.7))]);
    const options = { ahead: 10, random: createRandom(3), draws: 20_000 };
    const { failures, expected } = forecastFailures(fit, { age: [0], count: [40] }, options);
    expect(failures).toEqual({ lower: 7, upper: 18 });
    close(expected.value, 12, 1e-9);
    close(expected.upper, 12, 1e-6);
  });

  it('unequal chances: two sure, two never, one of a half gives 2 to 3', () => {
    const fit = known('weibull', [Math.log(100), Math.log(1e-3)]);
    // Shape 1000 at 100: past it failure is sure, well before it impossible; half ahead at the median.
    const median = 100 * Math.LN2 ** 1e-3;
    const data = { age: [98, 98, 10, 20, 0], ahead: [10, 10, 10, 10, median] };
    const { failures, probability } = forecastFailures(fit, data, { random: createRandom(4) });
    [1, 1, 0, 0, 0.5].forEach((p, row) => close(probability[row], p, 1e-6));
    expect(failures).toEqual({ lower: 2, upper: 3 });
  });

  it('units that run unlike far keep their mean: Weibull shape 3, young ones far and old ones a little, in 20 classes', () => {
    const fit = known('weibull', [Math.log(100), -Math.log(3)]);
    const age = Array.from({ length: 2000 }, (_, unit) => (unit % 100) * 1.2);
    // The older, the shorter: of many such pairs the chance is the same.
    const ahead = age.map((start) => 5 + 4000 / (40 + start));
    const byHand = age.reduce(
      (sum, start, unit) => sum - Math.expm1((start / 100) ** 3 - ((start + (ahead[unit] as number)) / 100) ** 3),
      0,
    );
    const options = { random: createRandom(6), draws: 4000, classes: 20 };
    const { drawn, expected, failures } = forecastFailures(fit, { age, ahead }, options);
    close(expected.value, byHand, 1e-9);
    close(drawn.reduce((sum, one) => sum + one, 0) / drawn.length, byHand, 0.002);
    close(((failures.lower as number) + (failures.upper as number)) / 2, byHand, 0.005);
  });

  it('a doubtful fit widens both intervals, one that cannot be used gives none', () => {
    const data = { age: Array.from({ length: 200 }, (_, k) => k) };
    const options = () => ({ ahead: 30, random: createRandom(5) });
    const sure = forecastFailures(known('weibull', [5, -0.7]), data, options());
    const doubtful = forecastFailures(known('weibull', [5, -0.7], 0.2), data, options());
    const width = ({ lower, upper }: { lower: number | null; upper: number | null }) => (upper ?? NaN) - (lower ?? NaN);
    expect(width(doubtful.failures)).toBeGreaterThan(1.3 * width(sure.failures));
    expect(width(sure.expected)).toBeLessThan(1e-3);
    const none = forecastFailures({ ...known('weibull', [5, -0.7]), converged: false }, data, options());
    expect(none.reason).toMatch(/did not converge/);
    expect(none.failures).toEqual({ value: null, lower: null, upper: null });
  });

  it('bad arguments', () => {
    const fit = known('exponential', [4]);
    const random = createRandom(1);
    expect(() => forecastFailures(fit, { age: [] }, { ahead: 1, random })).toThrow('age: has no rows');
    expect(() => forecastFailures(fit, { age: [1] }, { random })).toThrow('ahead: is wanted once');
    expect(() => forecastFailures(fit, { age: [1], ahead: [1] }, { ahead: 1, random })).toThrow(
      'ahead: is wanted once',
    );
    expect(() => forecastFailures(fit, { age: [1, -2] }, { ahead: 1, random })).toThrow('age[1]: is negative');
    expect(() => forecastFailures(fit, { age: [1], count: [0.5] }, { ahead: 1, random })).toThrow('count[0]');
    expect(() => forecastFailures(fit, { age: [1] }, { ahead: -1, random })).toThrow('ahead[0]: -1');
  });
});

describe('forecastFailures laws', () => {
  const fit = known('weibull', [Math.log(100), -0.6], 0.1);

  it('going ahead in two stages is going ahead at once', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 300, noNaN: true }),
        fc.double({ min: 0.1, max: 50, noNaN: true }),
        (age, step) => {
          const p = (start: number, ahead: number) =>
            forecastFailures(fit, { age: [start] }, { ahead, random: createRandom(1), draws: 200 })
              .probability[0] as number;
          close(p(age, 2 * step), 1 - (1 - p(age, step)) * (1 - p(age + step, step)), 1e-12);
        },
      ),
      { numRuns: 40 },
    );
  });

  it('row order and counts for repeats leave the expectation; classes of age hardly move the interval (3,000 units)', () => {
    const random = createRandom(6);
    const age = Array.from({ length: 3000 }, () => 200 * random.uniform());
    const options = () => ({ ahead: 15, random: createRandom(2), draws: 1000 });
    const one = forecastFailures(fit, { age }, options());
    const turned = forecastFailures(fit, { age: [...age].reverse() }, options());
    close(turned.expected.value, one.expected.value as number, 1e-12);
    expect(turned.failures).toEqual(one.failures);
    const halves = forecastFailures(fit, { age, count: age.map(() => 2) }, options());
    close(halves.expected.value, 2 * (one.expected.value as number), 1e-12);
    // Unclassed: 500 rows at a time would be; the limits of the expectation agree to a thousandth.
    const few = forecastFailures(fit, { age: age.slice(0, 500) }, options());
    const rest = age.slice(0, 500).flatMap((value) => [value, value]);
    const classed = forecastFailures(fit, { age: rest }, options());
    close((classed.expected.upper as number) / (few.expected.upper as number), 2, 2e-3);
  });

  it('the interval holds what comes (200 fleets of 60, seed 7, short form)', () => {
    const random = createRandom(7);
    let [held, held80] = [0, 0];
    for (let repeat = 0; repeat < 200; repeat++) {
      const lives = Array.from({ length: 60 }, () => 100 * Math.sqrt(random.exponential()));
      const now = lives.map(() => 120 * random.uniform());
      const event = lives.map((life, k) => (life <= (now[k] as number) ? 1 : 0));
      const fitted = fitLife(
        { exit: lives.map((life, k) => Math.min(life, now[k] as number)), event },
        { distribution: 'weibull' },
      );
      const running = [...lives.keys()].filter((k) => !event[k]);
      const came = running.filter((k) => (lives[k] as number) <= (now[k] as number) + 25).length;
      const data = { age: running.map((k) => now[k] as number) };
      const wide = forecastFailures(fitted, data, { ahead: 25, random, draws: 500 }).failures;
      const narrow = forecastFailures(fitted, data, { ahead: 25, random, draws: 500, level: 0.8 }).failures;
      if ((wide.lower as number) <= came && came <= (wide.upper as number)) held++;
      if ((narrow.lower as number) <= came && came <= (narrow.upper as number)) held80++;
    }
    expect(held / 200).toBeGreaterThan(0.92);
    expect(held80 / 200).toBeLessThan(0.95);
    expect(held80 / 200).toBeGreaterThan(0.75);
  });
});
