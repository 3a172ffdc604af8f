import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  createRandom,
  eventRate,
  poissonRegression,
  rateRatio,
  standardizedRatio,
  StatisticsError,
  type ExposedCounts,
  type PoissonRegression,
} from '../../lib/statistics/index.ts';

const sum = (values: ArrayLike<number>) => Array.from(values).reduce((a, b) => a + b, 0);
const close = (actual: number | undefined, expected: number, tolerance = 1e-9) =>
  expect(Math.abs((actual as number) - expected)).toBeLessThanOrEqual(tolerance * Math.max(1, Math.abs(expected)));
const closeAll = (actual: ArrayLike<number>, expected: ArrayLike<number>, tolerance = 1e-9) => {
  expect(actual.length).toBe(expected.length);
  Array.from(actual).forEach((value, j) => close(value, expected[j] as number, tolerance));
};
const FAMILIES = ['poisson', 'quasi', 'negative-binomial'] as const;
/** Normal quantile at 0.975 (any table). */
const Z = 1.959963984540054;

/** Two groups, rows 0 to 2 and 3 to 5. */
const SHOP = { levels: ['ours', 'theirs'], codes: [0, 0, 0, 1, 1, 1] };
const EXPOSURE = [10, 20, 30, 5, 10, 25];

describe('poissonRegression by hand', () => {
  const events = [1, 3, 2, 4, 2, 6];
  const [d0, t0, d1, t1] = [6, 60, 12, 40];

  it('two groups: the rates, their ratio, √(1/d₁ + 1/d₀)', () => {
    const fit = poissonRegression({ events, exposure: EXPOSURE, covariates: { shop: SHOP } });
    expect(fit.terms).toEqual(['(intercept)', 'shop=theirs']);
    closeAll(fit.ratio, [d0 / t0, d1 / t1 / (d0 / t0)]);
    const error = Math.sqrt(1 / d1 + 1 / d0);
    closeAll(fit.standardErrors, [Math.sqrt(1 / d0), error]);
    closeAll(fit.covariance, [1 / d0, -1 / d0, -1 / d0, error ** 2]);
    close(fit.lower[1], (fit.ratio[1] as number) * Math.exp(-Z * error));
    close(fit.upper[1], (fit.ratio[1] as number) * Math.exp(Z * error));
    const [l0, l1, l] = [d0 / t0, d1 / t1, 18 / 100];
    close(fit.tests.likelihoodRatio.statistic, 2 * (d0 * Math.log(l0 / l) + d1 * Math.log(l1 / l)));
    close(fit.tests.wald.statistic, (Math.log(l1 / l0) / error) ** 2);
    const exact = rateRatio({ events: [d1, d0], exposure: [t1, t0] });
    close(fit.ratio[1], exact.value as number);
    close(fit.standardErrors[1], exact.standardErrorLog as number);
    expect(fit).toMatchObject({ rows: 6, events: 18, degreesOfFreedom: 4, converged: true, warnings: [] });
  });

  it('two groups: deviance and Pearson χ² row by row, and the likelihood with its factorials', () => {
    const fit = poissonRegression({ events, exposure: EXPOSURE, covariates: { shop: SHOP } });
    const mean = EXPOSURE.map((miles, row) => miles * (row < 3 ? d0 / t0 : d1 / t1));
    closeAll(fit.expected({ exposure: EXPOSURE, covariates: { shop: SHOP } }), mean);
    const over = (part: (y: number, m: number) => number) => sum(events.map((y, row) => part(y, mean[row] as number)));
    close(fit.deviance, 2 * over((y, m) => y * Math.log(y / m) - (y - m)));
    close(
      fit.pearson,
      over((y, m) => (y - m) ** 2 / m),
    );
    close(fit.dispersion as number, fit.pearson / 4);
    const factorial = [1, 1, 2, 6, 24, 120, 720];
    close(
      fit.logLikelihood,
      over((y, m) => y * Math.log(m) - m - Math.log(factorial[y] as number)),
    );
    close(fit.aic, 4 - 2 * fit.logLikelihood);
  });

  it('one rate and no covariates; a row without exposure or weight says nothing', () => {
    const fit = poissonRegression({ events: [4, 1, 0, 9], exposure: [10, 40, 0, 3], weight: [1, 1, 1, 0] });
    closeAll(fit.ratio, [5 / 50]);
    closeAll(fit.standardErrors, [1 / Math.sqrt(5)]);
    expect(fit).toMatchObject({ rows: 2, events: 5, degreesOfFreedom: 1 });
    close(fit.ratio[0], eventRate({ events: 5, exposure: 50 }).rate.value as number);
  });

  it('a ratio on top of a known rate: the intercept is log observed / expected', () => {
    const known = [0.2, 0.05, 0.1];
    const exposure = [10, 40, 30];
    const fit = poissonRegression({ events: [4, 1, 6], exposure, offset: known.map(Math.log) });
    const expected = known.map((rate, row) => rate * (exposure[row] as number));
    close(fit.ratio[0], standardizedRatio({ observed: [4, 1, 6], expected }).value as number);
  });

  it('lives: each counts over exit − entry; ties and censorings need no order', () => {
    // Ours: failures at 2 and 5 (one entered at 1), a survivor to 5. Theirs: failures at 2, 2 and 4, entered at 0, 1, 3.
    const fit = poissonRegression({
      exit: [2, 5, 5, 2, 2, 4],
      event: [1, 1, 0, 1, 1, 1],
      entry: [1, 0, 0, 0, 1, 3],
      covariates: { shop: SHOP },
    });
    closeAll(fit.ratio, [2 / 11, 3 / 4 / (2 / 11)]);
    closeAll(fit.standardErrors, [Math.sqrt(1 / 2), Math.sqrt(1 / 2 + 1 / 3)]);
  });

  it('quasi: errors times √(Σ (y − μ)² / μ / (n − 2)), Student’s t on n − 2 for the limits, F for the test', () => {
    const counts = [9, 1, 0, 14, 2, 2];
    const exposure = [2, 2, 2, 2, 2, 2];
    const fit = poissonRegression({ events: counts, exposure, covariates: { shop: SHOP } }, { family: 'quasi' });
    const mean = counts.map((_, row) => (row < 3 ? 10 / 3 : 6));
    const dispersion = sum(counts.map((y, row) => (y - (mean[row] as number)) ** 2 / (mean[row] as number))) / 4;
    close(fit.dispersion as number, dispersion);
    const error = Math.sqrt(dispersion * (1 / 10 + 1 / 18));
    close(fit.standardErrors[1], error);
    // t at 0.975 with 4 degrees of freedom: 2.7764451052 (any table).
    close(fit.upper[1], 1.8 * Math.exp(2.7764451051977987 * error), 1e-8);
    const f = Math.log(1.8) ** 2 / error ** 2;
    close(fit.tests.wald.statistic, f);
    // With one term F is t²; two-sided t on 4: 1 − t/√(4 + t²) · (1 + 2/(4 + t²)) (Abramowitz & Stegun 26.7.4).
    const [t2, s2] = [f, 4 + f];
    close(fit.tests.wald.pValue, 1 - Math.sqrt(t2 / s2) * (1 + 2 / s2), 1e-8);
  });

  it('negative binomial, equal exposures: group means, variance Σ (1/μ + 1/θ)/n, θ where its score is zero', () => {
    const counts = [9, 1, 0, 14, 2, 2];
    const data = { events: counts, covariates: { shop: SHOP } };
    const fit = poissonRegression(data, { family: 'negative-binomial' });
    closeAll(fit.ratio, [10 / 3, 1.8]);
    const theta = fit.theta?.value as number;
    const variance = (mean: number) => (1 / mean + 1 / theta) / 3;
    closeAll(fit.standardErrors, [Math.sqrt(variance(10 / 3)), Math.sqrt(variance(10 / 3) + variance(6))]);
    const mean = (row: number) => (row < 3 ? 10 / 3 : 6);
    const score = (at: number) =>
      sum(counts.map((y, row) => sum(Array.from({ length: y }, (_, j) => 1 / (at + j))) - Math.log1p(mean(row) / at)));
    expect(score(theta * (1 - 1e-6))).toBeGreaterThan(0);
    expect(score(theta * (1 + 1e-6))).toBeLessThan(0);
    const h = 1e-4 * theta;
    close(fit.theta?.standardError, 1 / Math.sqrt((score(theta - h) - score(theta + h)) / (2 * h)), 1e-6);
    const log = (fit.theta?.standardError as number) / theta;
    close(fit.theta?.lower, theta * Math.exp(-Z * log));
    close(fit.pearson, sum(counts.map((y, row) => (y - mean(row)) ** 2 / (mean(row) + mean(row) ** 2 / theta))));
  });

  it('robust: one rate, each cluster left out, a step of (d − m) / (D − m)', () => {
    // Vehicles with 1 and 3 failures over 20, 2 over 10, 6 over 10: rate 12 / 40.
    const data = { events: [1, 3, 2, 6], exposure: [12, 8, 10, 10], cluster: ['a', 'a', 'b', 'c'] };
    const fit = poissonRegression(data);
    const step = (events: number, exposure: number) => (events - 0.3 * exposure) / (12 - 0.3 * exposure);
    const error = Math.hypot(step(4, 20), step(2, 10), step(6, 10));
    close(fit.robustStandardErrors?.[0], error);
    // t at 0.975 with 2 degrees of freedom is 4.3026527297 (any table).
    close(fit.robustUpper?.[0], 0.3 * Math.exp(4.302652729749464 * error), 1e-8);
    expect(fit.clusters).toBe(3);
    expect(fit.warnings.map(({ kind }) => kind)).toEqual(['few-clusters']);
  });

  it('robust: a level that one vehicle alone has is said to be unknown, the other as if it were not there', () => {
    const levels = { levels: ['none', 'some', 'one'], codes: [0, 0, 1, 1, 2, 2] };
    const data = { events: [3, 5, 4, 8, 9, 2], cluster: [1, 2, 1, 3, 4, 4], covariates: { levels } };
    const fit = poissonRegression(data);
    const [first, second, third] = fit.robustStandardErrors as Float64Array;
    expect(third).toBe(Infinity);
    expect([fit.robustLower?.[2], fit.robustUpper?.[2]]).toEqual([0, Infinity]);
    expect(fit.warnings.map(({ kind, term }) => [kind, term])).toContainEqual(['few-clusters', 'levels=one']);
    const without = poissonRegression({
      events: [3, 5, 4, 8],
      cluster: [1, 2, 1, 3],
      covariates: { levels: { levels: ['none', 'some'], codes: [0, 0, 1, 1] } },
    });
    closeAll([first, second] as number[], without.robustStandardErrors as Float64Array);
  });
});

describe('poissonRegression where the likelihood is monotone', () => {
  const none = { events: [3, 5, 4, 0, 0, 0], exposure: EXPOSURE, covariates: { shop: SHOP } };
  const [d0, t0, t1] = [12, 60, 40];

  it.each(FAMILIES)('a level without events: ratio 0 with a likelihood limit, and a warning (%s)', (family) => {
    const fit = poissonRegression(none, { family });
    expect([...fit.coefficients.subarray(1)]).toEqual([-Infinity]);
    expect([fit.ratio[1], fit.lower[1], fit.standardErrors[1]]).toEqual([0, 0, Infinity]);
    close(fit.ratio[0], d0 / t0);
    close(fit.standardErrors[0], Math.sqrt(1 / d0));
    // With λ₀ at its best for a ratio r, d₀ log((t₀ + r t₁)/t₀) is lost: half of z² at the limit.
    close(fit.upper[1], (t0 / t1) * Math.expm1(Z ** 2 / (2 * d0)), 1e-7);
    expect(fit.warnings[0]).toMatchObject({ kind: 'separation', term: 'shop=theirs' });
    // The level's rows expect nothing and so do not count.
    expect(fit.degreesOfFreedom).toBe(2);
    expect([...fit.expected(none)].slice(3)).toEqual([0, 0, 0]);
  });

  it('the reference without events: its rate 0 with a limit, the other rates known though their ratios are not', () => {
    const shop = { levels: ['theirs', 'ours', 'other'], codes: [1, 1, 2, 0, 0, 0] };
    const fit = poissonRegression({ ...none, covariates: { shop } });
    expect([...fit.ratio]).toEqual([0, Infinity, Infinity]);
    // λ t = z²/2 is lost at a rate λ of a level without events.
    close(fit.upper[0], Z ** 2 / (2 * t1), 1e-7);
    expect(fit.lower[1]).toBeGreaterThan(1);
    expect(fit.warnings.map(({ term }) => term)).toEqual(['(intercept)', 'shop=ours', 'shop=other']);
    closeAll(fit.expected({ ...none, covariates: { shop } }), [8 / 3, 16 / 3, 4, 0, 0, 0]);
  });

  it('two levels without events, and a covariate that differs only within one', () => {
    const shop = { levels: ['a', 'b', 'c'], codes: [0, 0, 0, 1, 1, 2] };
    const age = [0, 0, 0, 1, 2, 0];
    const fit = poissonRegression({ ...none, covariates: { shop, age } });
    closeAll([fit.ratio[0] as number, fit.standardErrors[0] as number], [d0 / t0, Math.sqrt(1 / d0)]);
    expect([...fit.ratio.subarray(1)]).toEqual([0, 0, 1]);
    expect([fit.lower[3], fit.upper[3]]).toEqual([0, Infinity]);
    expect(fit.converged).toBe(true);
    expect(fit.warnings.map(({ kind, term }) => `${kind} ${term}`)).toEqual([
      'separation shop=b',
      'separation shop=c',
      'separation age',
    ]);
  });

  it('nothing is expected beyond what the fit can say', () => {
    const fit = poissonRegression({ events: [0, 0, 0, 2], covariates: { age: [1, 2, 3, 4] } });
    expect(fit.warnings.map(({ kind }) => kind)).toEqual(['separation', 'separation']);
    expect(() => fit.expected({ covariates: { age: [4, 5] } })).toThrow(
      'covariates[1]: are where the fit sets no upper',
    );
  });
});

describe('poissonRegression without overdispersion', () => {
  // Binomial-like counts, less spread than Poisson.
  const calm = { events: [2, 2, 3, 4, 4, 5], covariates: { shop: SHOP } };

  it.each(['quasi', 'negative-binomial'] as const)('gives Poisson limits and says so (%s)', (family) => {
    const plain = poissonRegression(calm);
    const fit = poissonRegression(calm, { family });
    closeAll(fit.upper, plain.upper);
    closeAll(fit.standardErrors, plain.standardErrors);
    expect(fit.warnings.map(({ kind }) => kind)).toEqual(['no-overdispersion']);
    expect(fit.dispersion).toBeLessThan(1);
    expect(fit.tests.wald.pValue).toBeCloseTo(plain.tests.wald.pValue, 12);
  });

  it('θ is infinite, its lower limit where the likelihood has dropped by half of z²', () => {
    const { theta, tests, logLikelihood } = poissonRegression(calm, { family: 'negative-binomial' });
    expect([theta?.value, theta?.upper]).toEqual([Infinity, Infinity]);
    expect(tests.overdispersion).toEqual({ statistic: 0, degreesOfFreedom: 1, pValue: 1 });
    // With equal exposures the means stay at those of the groups whatever θ.
    const mean = (row: number) => (row < 3 ? 7 / 3 : 13 / 3);
    const factorial = [1, 1, 2, 6, 24, 120];
    const at = (a: number) =>
      sum(
        calm.events.map((y, row) => {
          const rising = sum(Array.from({ length: y }, (_, j) => Math.log1p(j / a)));
          const m = mean(row);
          return rising + y * Math.log(m) - (y + a) * Math.log1p(m / a) - Math.log(factorial[y] as number);
        }),
      );
    close(2 * (logLikelihood - at(theta?.lower as number)), Z ** 2, 1e-7);
  });
});

describe('poissonRegression says what is wrong', () => {
  const good: ExposedCounts = { events: [1, 0, 2], exposure: [1, 2, 3], covariates: { x: [1, 2, 5] } };
  it.each<[string, ExposedCounts, string, number | null]>([
    ['no rows', { events: [] }, 'events', null],
    ['no events', { ...good, events: [0, 0, 0] }, 'events', null],
    ['no count', { ...good, events: [1, 0.5, 2] }, 'events', 1],
    ['a negative count', { ...good, events: [1, -1, 2] }, 'events', 1],
    ['NaN', { ...good, events: [1, NaN, 2] }, 'events', 1],
    ['negative exposure', { ...good, exposure: [1, 2, -3] }, 'exposure', 2],
    ['no exposure to an event', { ...good, exposure: [0, 2, 3] }, 'exposure', 0],
    ['no exposure at all', { events: [0, 0], exposure: [0, 0] }, 'exposure', null],
    ['NaN exposure', { ...good, exposure: [1, NaN, 3] }, 'exposure', 1],
    ['rows of unlike length', { ...good, exposure: [1, 2] }, 'exposure', null],
    ['an infinite offset', { ...good, offset: [0, -Infinity, 0] }, 'offset', 1],
    ['a negative weight', { ...good, weight: [1, 1, -1] }, 'weight', 2],
    ['a missing covariate', { ...good, covariates: { x: [1, NaN, 5] } }, 'covariates.x', 1],
  ])('%s', (_name, data, argument, row) => {
    try {
      poissonRegression(data);
      expect.fail('nothing thrown');
    } catch (error) {
      expect(error).toBeInstanceOf(StatisticsError);
      expect(error).toMatchObject({ argument, row });
    }
  });

  it('a level outside (0, 1), a family not offered, no degrees of freedom for the family, a count past working', () => {
    expect(() => poissonRegression(good, { level: 1 })).toThrow('level');
    expect(() => poissonRegression(good, { family: 'gamma' as 'poisson' })).toThrow('family');
    const two = { events: [1, 4], covariates: { x: [0, 1] } };
    expect(() => poissonRegression(two, { family: 'quasi' })).toThrow('more rows than terms');
    expect(() => poissonRegression(two, { family: 'negative-binomial' })).toThrow('more rows than terms');
    expect(poissonRegression(two)).toMatchObject({ degreesOfFreedom: 0, dispersion: null });
    const huge = { events: [5, 3, 2_000_000], weight: [1, 0, 1] };
    expect(() => poissonRegression(huge, { family: 'negative-binomial' })).toThrow('events[2]');
  });

  it('columns that say nothing of their own are left out and named; other values of them are not predicted', () => {
    const covariates = { x: [1, 2, 5, 7], twice: [3, 5, 11, 15], wet: [1, 1, 1, 1] };
    const fit = poissonRegression({ events: [1, 0, 2, 5], covariates });
    const alone = poissonRegression({ events: [1, 0, 2, 5], covariates: { x: covariates.x } });
    expect(fit.terms).toEqual(['(intercept)', 'x']);
    expect(fit.warnings.map(({ kind, term }) => `${kind} ${term}`)).toEqual(['collinear twice', 'constant wet']);
    closeAll(fit.coefficients, alone.coefficients);
    expect(() => fit.expected({ covariates: { x: [1, 2], wet: [1, 0] } })).toThrow('covariates[1]: have wet differ');
    expect(() => fit.expected({ covariates: { wet: [1, 1] } })).toThrow('lack x');
  });

  it('one event in all: the answer is wide, not huge', () => {
    const data = { events: [0, 0, 1, 0, 0, 0], exposure: EXPOSURE, covariates: { x: [1, 2, 3, 4, 5, 6] } };
    for (const family of FAMILIES) {
      const fit = poissonRegression(data, { family });
      expect(fit.converged).toBe(true);
      expect(Math.abs(fit.coefficients[1] as number)).toBeLessThan(2);
      expect(sum(fit.expected(data))).toBeCloseTo(1, 9);
    }
  });

  it('a rate ratio of ten million is found', () => {
    const data = { events: [1, 2, 0, 10_000, 12_000, 9_000], exposure: [1e3, 1e3, 1e3, 1, 1, 1] };
    const fit = poissonRegression({ ...data, covariates: { shop: SHOP } });
    close(fit.ratio[1], 31_000 / 3 / (3 / 3000), 1e-8);
    expect(fit.converged).toBe(true);
  });
});

/** Counts with two covariates, a category, vehicles and more spread than Poisson. */
function fleet(seed: number, rows = 60) {
  const random = createRandom(seed);
  const column = (make: (row: number) => number) => Float64Array.from({ length: rows }, (_, row) => make(row));
  const cluster = Int32Array.from({ length: rows }, (_, row) => row >> 1);
  const [wet, load] = [column(() => (random.uniform() < 0.4 ? 1 : 0)), column(() => random.normal())];
  const codes = Int32Array.from({ length: rows }, (_, row) => row % 3);
  const exposure = column(() => 0.5 + random.uniform());
  const events = column((row) => {
    const log = 1 + 0.5 * (wet[row] as number) - 0.3 * (load[row] as number) + 0.2 * (codes[row] as number);
    return random.poisson((exposure[row] as number) * Math.exp(log) * random.gamma(2) * 0.5);
  });
  const shop = { levels: ['a', 'b', 'c'], codes };
  return { events, exposure, cluster, covariates: { wet, load, shop } };
}

type Fleet = ReturnType<typeof fleet>;

/** The listed rows of a fleet, in that order, as often as listed. */
function take({ events, exposure, cluster, covariates: { wet, load, shop } }: Fleet, rows: readonly number[]): Fleet {
  const pick = (values: Float64Array) => Float64Array.from(rows, (row) => values[row] as number);
  const code = (values: Int32Array) => Int32Array.from(rows, (row) => values[row] as number);
  const covariates = { wet: pick(wet), load: pick(load), shop: { levels: shop.levels, codes: code(shop.codes) } };
  return { events: pick(events), exposure: pick(exposure), cluster: code(cluster), covariates };
}

const seeds = fc.integer({ min: 1, max: 1e6 });
const runs = { numRuns: 12 };
const all = (data: ExposedCounts) => FAMILIES.map((family) => poissonRegression(data, { family }));

function sameFit(one: PoissonRegression, two: PoissonRegression, tolerance = 1e-7): void {
  closeAll(one.coefficients, two.coefficients, tolerance);
  closeAll(one.standardErrors, two.standardErrors, tolerance);
  if (one.robustStandardErrors) closeAll(one.robustStandardErrors, two.robustStandardErrors as Float64Array, tolerance);
  if (one.theta) close(one.theta.value, two.theta?.value as number, tolerance);
}

describe('laws of poissonRegression', () => {
  it('the order of rows does not matter', () =>
    fc.assert(
      fc.property(seeds, (seed) => {
        const data = fleet(seed);
        const order = [...data.events.keys()].sort((a, b) => ((a * 37) % 61) - ((b * 37) % 61));
        all(data).forEach((fit, k) => {
          const other = all(take(data, order))[k] as PoissonRegression;
          sameFit(fit, other);
          close(fit.logLikelihood, other.logLikelihood);
        });
      }),
      runs,
    ));

  it('a weight is so many rows alike', () =>
    fc.assert(
      fc.property(seeds, (seed) => {
        const data = fleet(seed);
        const weight = Float64Array.from(data.events, (_, row) => row % 3);
        const rows = [...data.events.keys()].flatMap((row) => Array.from({ length: row % 3 }, () => row));
        all({ ...data, weight }).forEach((fit, k) => {
          const repeated = all(take(data, rows))[k] as PoissonRegression;
          sameFit(fit, repeated);
          close(fit.deviance, repeated.deviance);
          close(fit.pearson, repeated.pearson);
          expect(fit.degreesOfFreedom).toBe(repeated.degreesOfFreedom);
        });
      }),
      runs,
    ));

  it('cutting a row’s exposure, and its events with it, changes no Poisson estimate', () =>
    fc.assert(
      fc.property(seeds, fc.double({ min: 0.05, max: 0.95, noNaN: true }), (seed, share) => {
        const data = fleet(seed);
        const twice = take(
          data,
          [...data.events.keys()].flatMap((row) => [row, row]),
        );
        const exposure = twice.exposure.map((value, at) => value * (at % 2 ? share : 1 - share));
        const events = twice.events.map((count, at) => (at % 2 ? Math.floor(count / 2) : Math.ceil(count / 2)));
        sameFit(poissonRegression({ ...twice, exposure, events }), poissonRegression(data));
      }),
      runs,
    ));

  it('another unit of exposure moves the intercept alone; one of a covariate its own coefficient alone', () =>
    fc.assert(
      fc.property(seeds, fc.constantFrom(1e-6, 1e-3, 1.609344, 1e6), (seed, factor) => {
        const data = fleet(seed);
        const { wet, load, shop } = data.covariates;
        all(data).forEach((fit, k) => {
          const miles = all({ ...data, exposure: data.exposure.map((value) => value * factor) })[
            k
          ] as PoissonRegression;
          closeAll(
            miles.coefficients,
            fit.coefficients.map((value, j) => (j === 0 ? value - Math.log(factor) : value)),
            1e-7,
          );
          closeAll(miles.covariance, fit.covariance, 1e-7);
          const scaled = { wet, load: load.map((value) => value * factor), shop };
          const other = all({ ...data, covariates: scaled })[k] as PoissonRegression;
          other.coefficients.forEach((value, j) =>
            close((j === 2 ? factor : 1) * value, fit.coefficients[j] as number, 1e-7),
          );
          other.standardErrors.forEach((value, j) =>
            close((j === 2 ? factor : 1) * value, fit.standardErrors[j] as number, 1e-7),
          );
          close(other.logLikelihood, fit.logLikelihood);
        });
      }),
      runs,
    ));

  it('the score is zero at the estimate', () =>
    fc.assert(
      fc.property(seeds, (seed) => {
        const data = fleet(seed);
        for (const fit of all(data)) {
          const theta = fit.theta?.value ?? Infinity;
          const mean = fit.expected(data);
          const residual = data.events.map(
            (y, row) => (y - (mean[row] as number)) / (1 + (mean[row] as number) / theta),
          );
          const { wet, load } = data.covariates;
          for (const column of [wet.map(() => 1), wet, load])
            expect(Math.abs(sum(residual.map((value, row) => value * (column[row] as number))))).toBeLessThan(1e-6);
        }
      }),
      runs,
    ));

  it('no cluster but itself: left out one at a time and fitted anew, rows give nearly the one-step errors', () => {
    const data = fleet(5, 100);
    const fit = poissonRegression({ ...data, cluster: data.events.map((_, row) => row) });
    const anew = [...data.events.keys()].map(
      (gone) =>
        poissonRegression(
          take(
            data,
            [...data.events.keys()].filter((row) => row !== gone),
          ),
        ).coefficients,
    );
    fit.coefficients.forEach((value, j) => {
      const jackknife = Math.sqrt(sum(anew.map((other) => ((other[j] as number) - value) ** 2)));
      expect(Math.abs((fit.robustStandardErrors?.[j] as number) / jackknife - 1)).toBeLessThan(0.03);
    });
  });

  it('the observed information agrees with the expected one where there are many rows', () => {
    const data = fleet(9, 3000);
    const [one, two] = (['expected', 'observed'] as const).map((information) =>
      poissonRegression(data, { family: 'negative-binomial', information }),
    ) as [PoissonRegression, PoissonRegression];
    one.standardErrors.forEach((error, j) => expect(error / (two.standardErrors[j] as number)).toBeCloseTo(1, 1));
    closeAll(one.coefficients, two.coefficients);
  });
});
