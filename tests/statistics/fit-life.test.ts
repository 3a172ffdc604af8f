import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitLife } from '../../lib/statistics/fit-life.ts';
import type { ExitData } from '../../lib/statistics/life-rows.ts';
import { createRandom, type Random } from '../../lib/statistics/numeric/random.ts';

const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0);
const close = (actual: number, expected: number, tolerance = 1e-9) =>
  expect(Math.abs(actual - expected)).toBeLessThanOrEqual(tolerance * Math.max(1, Math.abs(expected)));

describe('fitLife by hand', () => {
  // Two events tied, an event tied with a running unit, a running unit alone.
  const exit = [3, 3, 5, 5, 8, 12];
  const event = [1, 1, 1, 0, 0, 1];

  it('exponential: mean life = time at risk / failures, standard error mean / √failures, whatever the entries', () => {
    const entry = [0, 1, 0, 2, 0, 4];
    const mean = sum(exit.map((t, i) => t - (entry[i] as number))) / 4;
    const { parameters, logLikelihood, lifeAt, survivalAt } = fitLife(
      { exit, event, entry },
      { distribution: 'exponential' },
    );
    close(parameters.scale.value, mean);
    close(parameters.scale.standardError, mean / 2);
    close(parameters.scale.upper, mean * Math.exp(1.959963984540054 / 2));
    close(logLikelihood, -4 * Math.log(mean) - 4);
    close(lifeAt(0.1).value, -mean * Math.log(0.9));
    close(survivalAt(7).value, Math.exp(-7 / mean));
    expect(survivalAt(0)).toEqual({ value: 1, standardError: 0, lower: 1, upper: 1 });
  });

  it('exponential likelihood-ratio limits are the roots of 2 (d log(θ/θ̂) + d (θ̂/θ − 1)) = 3.84', () => {
    const { likelihoodRatio, parameters } = fitLife({ exit, event }, { distribution: 'exponential' });
    const { lower, upper } = likelihoodRatio.lifeAt(1 - Math.exp(-1));
    for (const limit of [lower, upper]) {
      const ratio = limit / parameters.scale.value;
      close(8 * (Math.log(ratio) + 1 / ratio - 1), 3.841458820694124, 1e-8);
    }
    expect(() => likelihoodRatio.shape()).toThrow('has no shape');
  });

  it('Weibull: at the maximum scale^β = Σ t^β / d and 1/β = Σ t^β log t / Σ t^β − Σ log t over failures / d', () => {
    const { shape, scale } = fitLife({ exit, event }, { distribution: 'weibull' }).parameters;
    const b = shape.value;
    const powers = sum(exit.map((t) => t ** b));
    const failed = exit.filter((_, i) => event[i] === 1);
    close(scale.value ** b, powers / 4);
    close(1 / b, sum(exit.map((t) => t ** b * Math.log(t))) / powers - sum(failed.map(Math.log)) / 4);
  });

  it('Weibull shape by likelihood ratio: the profile −d log Σ t^β + d log β + β Σ log t falls by 1.92 at both limits', () => {
    const { likelihoodRatio, parameters } = fitLife({ exit, event }, { distribution: 'weibull' });
    const failed = exit.filter((_, i) => event[i] === 1);
    const profile = (b: number) =>
      4 * Math.log(b) - 4 * Math.log(sum(exit.map((t) => t ** b))) + b * sum(failed.map(Math.log));
    const { lower, upper } = likelihoodRatio.shape();
    expect(lower).toBeLessThan(parameters.shape.value);
    expect(upper).toBeGreaterThan(parameters.shape.value);
    for (const limit of [lower, upper])
      close(profile(parameters.shape.value) - profile(limit), 3.841458820694124 / 2, 1e-8);
  });

  it('lognormal without censoring: mean and maximum-likelihood standard deviation of the logs', () => {
    const lives = [2, 3, 7, 11];
    const { location, scale } = fitLife({ exit: lives, event: [1, 1, 1, 1] }, { distribution: 'lognormal' }).parameters;
    const mean = sum(lives.map(Math.log)) / 4;
    const deviation = Math.sqrt(sum(lives.map((t) => (Math.log(t) - mean) ** 2)) / 4);
    close(location.value, mean);
    close(scale.value, deviation);
    close(location.standardError, deviation / 2);
    close(scale.standardError, deviation / Math.sqrt(8));
  });

  it('one inspection: the exponential that has the share found failed', () => {
    // 3 of 10 found failed at 50: 1 − e^(−50/θ) = 0.3.
    const data = { lower: [0, 50], upper: [50, Infinity], weight: [3, 7] };
    close(fitLife(data, { distribution: 'exponential' }).parameters.scale.value, -50 / Math.log(0.7));
  });

  it('two inspections: the Weibull through both shares failed', () => {
    const data = { lower: [0, 50, 0, 90], upper: [50, Infinity, 90, Infinity], weight: [1, 9, 6, 4] };
    const { survivalAt, converged } = fitLife(data, { distribution: 'weibull' });
    expect(converged).toBe(true);
    close(survivalAt(50).value, 0.9);
    close(survivalAt(90).value, 0.4);
  });

  it('one failure among running units that ran longer: β = 1 / (Σ t^β log t / Σ t^β − log t₁)', () => {
    const { shape } = fitLife({ exit: [4, 9, 10], event: [1, 0, 0] }, { distribution: 'weibull' }).parameters;
    const b = shape.value;
    const powers = 4 ** b + 9 ** b + 10 ** b;
    const logs = 4 ** b * Math.log(4) + 9 ** b * Math.log(9) + 10 ** b * Math.log(10);
    close(1 / b, logs / powers - Math.log(4));
    expect(shape.lower).toBeGreaterThan(0);
  });

  it('limits of survival stay between 0 and 1 and hold the estimate', () => {
    const { survivalAt } = fitLife({ exit, event }, { distribution: 'weibull' });
    for (const time of [1e-6, 1, 10, 1e4]) {
      const { value, lower, upper } = survivalAt(time);
      expect(lower).toBeGreaterThanOrEqual(0);
      expect(upper).toBeLessThanOrEqual(1);
      expect(lower).toBeLessThanOrEqual(value);
      expect(upper).toBeGreaterThanOrEqual(value);
    }
  });
});

describe('fitLife refuses what has no answer, and says why', () => {
  const weibull = { distribution: 'weibull' } as const;

  it.each([
    ['no rows', { exit: [], event: [] }, 'exit: has no rows'],
    ['no failures', { exit: [3, 4], event: [0, 0] }, 'event: no failures'],
    [
      'all failures at one time, none ran longer',
      { exit: [5, 5, 3], event: [1, 1, 0] },
      'the shape has no upper bound',
    ],
    ['exit before entry', { exit: [5, 4], event: [1, 1], entry: [0, 4] }, 'exit[1]: 4 is not after entry 4'],
    ['event neither 0 nor 1', { exit: [5, 4], event: [1, 2] }, 'event[1]: 2 is neither 0 nor 1'],
    ['not a number', { exit: [5, NaN], event: [1, 1] }, 'exit[1]: is not a finite number'],
    ['negative weight', { exit: [5, 4], event: [1, 1], weight: [1, -1] }, 'weight[1]: is negative'],
    ['lower above upper', { lower: [6], upper: [5] }, 'lower[0]: 6 is above upper 5'],
    ['all found failed at first', { lower: [0, 0], upper: [5, 6] }, 'life has no lower bound'],
    ['one life fits all', { lower: [1, 2], upper: [4, Infinity] }, 'the shape has no upper bound'],
    ['later inspections found fewer', { lower: [0, 9], upper: [4, Infinity] }, 'no shape above zero fits'],
  ])('%s', (_, data, message) => {
    expect(() => fitLife(data, weibull)).toThrow(message);
  });

  it('unknown distribution, level or fraction', () => {
    const data = { exit: [3, 4, 6], event: [1, 1, 0] };
    expect(() => fitLife(data, { distribution: 'gumbel' as 'weibull' })).toThrow('distribution: gumbel');
    expect(() => fitLife(data, { ...weibull, level: 1 })).toThrow('level');
    expect(() => fitLife(data, weibull).lifeAt(1)).toThrow('fraction: 1');
    expect(() => fitLife(data, weibull).survivalAt(-1)).toThrow('time: -1');
  });

  it('a shape that runs to zero is reported, with unbounded limits rather than numbers', () => {
    // Current status, and the share found failed falls with age: no rising distribution fits.
    const data = { lower: [0, 10, 0, 100], upper: [10, Infinity, 100, Infinity], weight: [5, 5, 2, 8] };
    const fit = fitLife(data, weibull);
    expect(fit.converged).toBe(false);
    expect(fit.warnings).toHaveLength(1);
    expect(Number.isNaN(fit.parameters.shape.lower)).toBe(false);
  });
});

const weibullLives = (
  random: Random,
  shape: number,
  count: number,
  late: number,
): Required<Omit<ExitData, 'weight' | 'cluster'>> => {
  const data = { exit: [] as number[], event: [] as number[], entry: [] as number[] };
  while (data.exit.length < count) {
    const life = 100 * random.exponential() ** (1 / shape);
    const entry = random.uniform() < late ? 80 * random.uniform() : 0;
    if (life <= entry) continue;
    const end = entry + 160 * random.uniform();
    data.exit.push(Math.min(life, end));
    data.event.push(life <= end ? 1 : 0);
    data.entry.push(entry);
  }
  return data;
};

describe('fitLife laws', () => {
  const seeds = fc.integer({ min: 1, max: 1e6 });
  const distributions = fc.constantFrom('weibull', 'lognormal', 'exponential' as const);
  const lives = (seed: number) => weibullLives(createRandom(seed), 0.6 + (seed % 5), 40, 0.4);
  const same = (a: ReturnType<typeof fitLife>, b: ReturnType<typeof fitLife>, tolerance = 1e-7) => {
    close(b.logLikelihood, a.logLikelihood, tolerance);
    a.working.values.forEach((value, k) => close(b.working.values[k] as number, value, tolerance));
    a.working.covariance?.forEach((value, k) => close(b.working.covariance?.[k] as number, value, tolerance));
  };

  it('row order does not matter', () => {
    fc.assert(
      fc.property(seeds, distributions, (seed, distribution) => {
        const { exit, event, entry } = lives(seed) as { exit: number[]; event: number[]; entry: number[] };
        const turned = { exit: [...exit].reverse(), event: [...event].reverse(), entry: [...entry].reverse() };
        same(fitLife({ exit, event, entry }, { distribution }), fitLife(turned, { distribution }));
      }),
      { numRuns: 30 },
    );
  });

  it('another unit of time moves the scale and nothing else', () => {
    fc.assert(
      fc.property(seeds, fc.constantFrom(1e-9, 1e-3, 1.609344, 1e6), (seed, unit) => {
        const { exit, event, entry } = lives(seed) as { exit: number[]; event: number[]; entry: number[] };
        const scaled = { exit: exit.map((t) => t * unit), event, entry: entry.map((t) => t * unit) };
        const [one, other] = [
          fitLife({ exit, event, entry }, { distribution: 'weibull' }),
          fitLife(scaled, { distribution: 'weibull' }),
        ];
        close(other.parameters.shape.value, one.parameters.shape.value, 1e-8);
        close(other.parameters.shape.standardError, one.parameters.shape.standardError, 1e-7);
        close(other.lifeAt(0.1).upper / unit, one.lifeAt(0.1).upper, 1e-7);
      }),
      { numRuns: 30 },
    );
  });

  it('weights act as repeats', () => {
    fc.assert(
      fc.property(seeds, distributions, (seed, distribution) => {
        const { exit, event, entry } = lives(seed) as { exit: number[]; event: number[]; entry: number[] };
        const weight = exit.map((_, row) => row % 4);
        const repeat = (values: number[]) =>
          values.flatMap((value, row) => Array<number>(weight[row] as number).fill(value));
        const repeated = { exit: repeat(exit), event: repeat(event), entry: repeat(entry) };
        same(fitLife({ exit, event, entry, weight }, { distribution }), fitLife(repeated, { distribution }));
      }),
      { numRuns: 30 },
    );
  });

  it('a life cut at any age into two rows with late entry is the same life', () => {
    fc.assert(
      fc.property(
        seeds,
        distributions,
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        (seed, distribution, share) => {
          const { exit, event, entry } = lives(seed) as { exit: number[]; event: number[]; entry: number[] };
          const cut = exit.map((end, row) => (entry[row] as number) + share * (end - (entry[row] as number)));
          const halves = {
            exit: [...cut, ...exit],
            event: [...event.map(() => 0), ...event],
            entry: [...entry, ...cut],
          };
          same(fitLife({ exit, event, entry }, { distribution }), fitLife(halves, { distribution }), 1e-6);
        },
      ),
      { numRuns: 30 },
    );
  });

  it('narrow intervals come to exact lives, their log-likelihood by the log of the width', () => {
    fc.assert(
      fc.property(
        seeds,
        fc.constantFrom('weibull', 'lognormal' as const),
        fc.constantFrom(1e-3, 1e-6, 1e-9),
        (seed, distribution, width) => {
          const { exit, event, entry } = lives(seed) as { exit: number[]; event: number[]; entry: number[] };
          const exact = fitLife({ exit, event, entry }, { distribution });
          const half = (row: number) => (width / 2) * (exit[row] as number);
          const lower = exit.map((t, row) => (event[row] ? Math.max(t - half(row), entry[row] as number) : t));
          const upper = exit.map((t, row) => (event[row] ? t + half(row) : Infinity));
          const spans = fitLife({ lower, upper, entry }, { distribution });
          exact.working.values.forEach((value, k) =>
            close(spans.working.values[k] as number, value, 10 * width * width + 1e-6),
          );
          exact.working.covariance?.forEach((value, k) =>
            close(spans.working.covariance?.[k] as number, value, width + 1e-5),
          );
          const logWidths = sum(
            exit.map((_, row) => (event[row] ? Math.log((upper[row] as number) - (lower[row] as number)) : 0)),
          );
          close(spans.logLikelihood - logWidths, exact.logLikelihood, width + 1e-6);
        },
      ),
      { numRuns: 30 },
    );
  });

  it('each life a cluster of its own: robust errors near the model-based ones when the model holds (n = 4000)', () => {
    const data = weibullLives(createRandom(11), 1.7, 4000, 0.3);
    const cluster = Array.from({ length: 4000 }, (_, row) => row);
    const { shape } = fitLife({ ...data, cluster }, { distribution: 'weibull' }).parameters;
    close((shape.robust?.standardError ?? 0) / shape.standardError, 1, 0.05);
  });

  it('every row given twice in one cluster: model-based errors shrink by √2, robust ones do not', () => {
    const data = weibullLives(createRandom(12), 1.7, 60, 0.3) as { exit: number[]; event: number[]; entry: number[] };
    const twice = (values: number[]) => [...values, ...values];
    const cluster = Array.from({ length: 60 }, (_, row) => row);
    const one = fitLife({ ...data, cluster }, { distribution: 'weibull' });
    const two = fitLife(
      { exit: twice(data.exit), event: twice(data.event), entry: twice(data.entry), cluster: twice(cluster) },
      { distribution: 'weibull' },
    );
    const [a, b] = [one.lifeAt(0.1), two.lifeAt(0.1)];
    close(b.standardError * Math.SQRT2, a.standardError, 1e-7);
    close(b.robust?.standardError as number, a.robust?.standardError as number, 1e-7);
  });
});

describe('fitLife under strain', () => {
  it.each([0.2, 0.5, 1, 4, 12])('finds shape %f from 3,000 lives, a third of them entered late', (shape) => {
    const data = weibullLives(createRandom(shape * 10), shape, 3000, 0.33);
    const fit = fitLife(data, { distribution: 'weibull' });
    expect(fit.converged).toBe(true);
    const { value, standardError } = fit.parameters.shape;
    expect(Math.abs(value - shape)).toBeLessThan(4 * standardError);
  });

  it('all failures tied, others ran longer; lives over 12 orders of magnitude; a million to one', () => {
    const tied = fitLife({ exit: [5, 5, 5, 9], event: [1, 1, 1, 0] }, { distribution: 'weibull' });
    expect(tied.converged).toBe(true);
    const wide = fitLife({ exit: [1e-6, 1, 1e6], event: [1, 1, 1] }, { distribution: 'weibull' });
    expect(wide.converged).toBe(true);
    const rare = fitLife({ exit: [900, 1000], event: [1, 0], weight: [1, 1e6] }, { distribution: 'weibull' });
    expect(rare.converged).toBe(true);
  });

  it('ignoring late entry biases the answer, allowing for it does not (4,000 lives, shape 2)', () => {
    const { exit, event, entry } = weibullLives(createRandom(3), 2, 4000, 0.8);
    const allowed = fitLife({ exit, event, entry }, { distribution: 'weibull' }).parameters.scale;
    const ignored = fitLife({ exit, event }, { distribution: 'weibull' }).parameters.scale;
    expect(Math.abs(allowed.value - 100)).toBeLessThan(3 * allowed.standardError);
    expect(ignored.value - 100).toBeGreaterThan(3 * ignored.standardError);
  });

  it('Wald and likelihood-ratio limits of B10 cover (400 small fleets of 40, seed 5, short form)', () => {
    const random = createRandom(5);
    const truth = 100 * (-Math.log(0.9)) ** (1 / 2);
    const covered = { wald: 0, ratio: 0 };
    for (let repeat = 0; repeat < 400; repeat++) {
      const fit = fitLife(weibullLives(random, 2, 40, 0.3), { distribution: 'weibull' });
      const [wald, ratio] = [fit.lifeAt(0.1), fit.likelihoodRatio.lifeAt(0.1)];
      if (wald.lower <= truth && truth <= wald.upper) covered.wald++;
      if (ratio.lower <= truth && truth <= ratio.upper) covered.ratio++;
    }
    for (const count of Object.values(covered)) expect(count / 400).toBeGreaterThan(0.92);
    for (const count of Object.values(covered)) expect(count / 400).toBeLessThan(0.98);
  });
});
