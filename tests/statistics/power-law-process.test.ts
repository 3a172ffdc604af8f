import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createRandom } from '../../lib/statistics/numeric/random.ts';
import { powerLawProcess } from '../../lib/statistics/power-law-process.ts';
import { check, loadCase, loadData, numbers } from '../reference/reference.ts';

const TOLERANCE = 1e-9;

describe('powerLawProcess against reference cases', () => {
  it('NIST/SEMATECH e-Handbook 8.4.5.2: one system, ten failures, stopped at 1500 h', () => {
    const { expected } = loadCase('plp-nist-example');
    const about = { method: 'powerLawProcess', source: 'plp-nist-example' };
    const hours = [...numbers(loadData('nist_power_law'), 'hours')];
    const data = { exit: [...hours, 1500], event: [...hours.map(() => 1), 0] };
    const fit = powerLawProcess(data);
    check(about, fit.shape.value, expected.beta_mle, TOLERANCE);
    check(about, fit.rate.value, expected.lambda_mle, TOLERANCE);
    check(about, fit.logLikelihood, expected.loglik, TOLERANCE);
    check(about, fit.meanBetweenAt(1500).value, expected.mtbf_inst_at_max_T, TOLERANCE);
    check(about, fit.covariance, expected.vcov_beta_lambda.flat(), TOLERANCE);
    check(about, fit.unbiasedShape as number, expected.beta_unbiased, TOLERANCE);
    check(about, 1500 / (fit.events * (fit.unbiasedShape as number)), expected.mtbf_end_from_unbiased, TOLERANCE);
    check(about, fit.trend.statistic, expected.growth_test_chisq, TOLERANCE);
    expect(fit.trend.degreesOfFreedom).toBe(expected.growth_test_df);
    expect(fit.shape.limits).toBe('exact');
    for (const percent of [80, 90, 95]) {
      const { shape } = powerLawProcess(data, { level: percent / 100 });
      const limits = expected.chisq_ci_beta_time_terminated[`level_${percent}`];
      check(about, [shape.lower, shape.upper], limits, TOLERANCE);
    }
  });

  it('valve seats of 41 engines, each to its own end (Meeker & Escobar 1998)', () => {
    const { expected } = loadCase('plp-valveseat');
    const about = { method: 'powerLawProcess', source: 'plp-valveseat' };
    const data = loadData('valveSeat');
    const fit = powerLawProcess({
      exit: numbers(data, 'time'),
      event: numbers(data, 'status'),
      unit: numbers(data, 'id'),
    });
    expect([fit.events, fit.systems, fit.shape.limits]).toEqual([expected.events, expected.systems, 'wald']);
    check(about, fit.shape.value, expected.beta_mle, TOLERANCE);
    check(about, fit.rate.value, expected.lambda_mle, TOLERANCE);
    check(about, fit.logLikelihood, expected.loglik, TOLERANCE);
    check(about, fit.covariance, expected.vcov_beta_lambda.flat(), TOLERANCE);
    const longest = numbers(data, 'time').reduce((a, b) => Math.max(a, b));
    check(about, fit.meanBetweenAt(longest).value, expected.mtbf_inst_at_max_T, TOLERANCE);
  });
});

describe('powerLawProcess by hand', () => {
  const sum = (values: number[]) => values.reduce((a, b) => a + b, 0);

  it('one common end: shape n / Σ log(T / t), rate n / (k T^shape), failures expected by T are those seen', () => {
    const ends = [8, 8];
    const failures = [1, 2, 4, 2, 6];
    const fit = powerLawProcess({
      exit: [1, 2, 4, 8, 2, 6, 8],
      event: [1, 1, 1, 0, 1, 1, 0],
      unit: ['a', 'a', 'a', 'a', 'b', 'b', 'b'],
    });
    const shape = 5 / sum(failures.map((t) => Math.log(8 / t)));
    expect(fit.shape.value).toBeCloseTo(shape, 12);
    expect(fit.rate.value).toBeCloseTo(5 / (ends.length * 8 ** shape), 12);
    expect(fit.expectedAt(8).value).toBeCloseTo(2.5, 12);
    expect(fit.expectedAt(fit.scale.value).value).toBeCloseTo(1, 12);
    expect(fit.unbiasedShape).toBeCloseTo((4 / 5) * shape, 12);
    expect(fit.intensityAt(8).value * fit.meanBetweenAt(8).value).toBeCloseTo(1, 12);
    // Laplace: Σ (t / T − ½) / √(n / 12).
    const laplace = sum(failures.map((t) => t / 8 - 0.5)) / Math.sqrt(5 / 12);
    expect(fit.trend.laplace?.statistic).toBeCloseTo(laplace, 12);
  });

  it('a system without an end row is stopped at its last failure, which says nothing of the trend', () => {
    const fit = powerLawProcess({ exit: [1, 2, 8], event: [1, 1, 1] });
    const logs = Math.log(8 / 1) + Math.log(8 / 2);
    expect(fit.shape.value).toBeCloseTo(3 / logs, 12);
    expect(fit.trend.statistic).toBeCloseTo(2 * logs, 12);
    expect(fit.trend.degreesOfFreedom).toBe(4);
    // (n − 2) / n of the estimate; two-sided p of χ²₄ in closed form: upper tail e^(−x/2) (1 + x/2).
    expect(fit.unbiasedShape).toBeCloseTo(1 / logs, 12);
    const upper = Math.exp(-logs) * (1 + logs);
    expect(fit.trend.pValue).toBeCloseTo(2 * Math.min(upper, 1 - upper), 12);
  });

  it('entry at half the end, one failure at t: the score 1/β + log t − log T + log 2 / (2^β − 1) is zero', () => {
    const t = 7;
    const { shape } = powerLawProcess({ exit: [t, 8], event: [1, 0], entry: [4, 4] });
    const b = shape.value;
    // (T^β log T − S^β log S) / (T^β − S^β) with S = T / 2 is log T + log 2 / (2^β − 1).
    expect(1 / b + Math.log(t) - Math.log(8) - Math.LN2 / (2 ** b - 1)).toBeCloseTo(0, 10);
  });

  it('rows that follow on from each other are the same watch', () => {
    const whole = powerLawProcess({ exit: [3, 7, 8], event: [1, 1, 0] });
    const cut = powerLawProcess({ exit: [2, 3, 7, 8], event: [0, 1, 1, 0], entry: [0, 2, 3, 7] });
    expect(cut.shape.value).toBeCloseTo(whole.shape.value, 13);
    expect(cut.trend).toEqual(whole.trend);
  });

  it('refuses what has no answer, and says why', () => {
    expect(() => powerLawProcess({ exit: [], event: [] })).toThrow('exit: has no rows');
    expect(() => powerLawProcess({ exit: [5], event: [0] })).toThrow('no failures');
    expect(() => powerLawProcess({ exit: [5], event: [1] })).toThrow('all failures are at the end');
    expect(() => powerLawProcess({ exit: [5, 6], event: [2, 0] })).toThrow('event[0]: 2 is neither 0 nor 1');
    expect(() => powerLawProcess({ exit: [5, 6], event: [0, 1] })).toThrow('exit[1]: is after the end of its system');
    expect(() => powerLawProcess({ exit: [5, 9], event: [1, 0], entry: [0, 6] })).toThrow('entry[1]: 6 leaves a gap');
    // All failures just after the entry: the intensity falls faster than any power of age from zero up.
    expect(() => powerLawProcess({ exit: [4.01, 4.02, 400], event: [1, 1, 0], entry: [4, 4, 4] })).toThrow(
      'crowd at the start',
    );
  });
});

describe('powerLawProcess laws', () => {
  const ages = fc.array(fc.double({ min: 0.01, max: 0.99, noNaN: true }), { minLength: 2, maxLength: 12 });

  it('another unit of age changes the scale and nothing else', () => {
    fc.assert(
      fc.property(ages, fc.constantFrom(1e-6, 1000, 1.609344), (times, unit) => {
        const event = [...times.map(() => 1), 0];
        const one = powerLawProcess({ exit: [...times, 1], event });
        const other = powerLawProcess({ exit: [...times.map((t) => t * unit), unit], event });
        expect(other.shape.value / one.shape.value).toBeCloseTo(1, 9);
        expect(other.scale.value / (one.scale.value * unit)).toBeCloseTo(1, 7);
        expect(other.shape.standardError / one.shape.standardError).toBeCloseTo(1, 9);
        expect(other.meanBetweenAt(unit / 2).upper / (one.meanBetweenAt(0.5).upper * unit)).toBeCloseTo(1, 7);
      }),
    );
  });

  it('row order does not matter', () => {
    const rows = [
      [3, 1, 0],
      [9, 0, 0],
      [2, 1, 1],
      [2.5, 1, 1],
      [7, 0, 1],
    ] as const;
    const fit = (order: typeof rows | readonly (readonly [number, number, number])[]) =>
      powerLawProcess({ exit: order.map((r) => r[0]), event: order.map((r) => r[1]), unit: order.map((r) => r[2]) });
    expect(fit([...rows].reverse()).shape.value).toBeCloseTo(fit(rows).shape.value, 13);
  });

  it('exact limits of the shape hold 95 % of the time (500 simulated systems, seed 4)', () => {
    const random = createRandom(4);
    let covered = 0;
    let used = 0;
    for (let repeat = 0; repeat < 500; repeat++) {
      // Given their number, failure ages are independent with distribution (t / T)^β.
      const count = random.poisson(6);
      if (count === 0) continue;
      const times = Array.from({ length: count }, () => random.uniform() ** (1 / 1.5));
      const { shape } = powerLawProcess({ exit: [...times, 1], event: [...times.map(() => 1), 0] });
      used++;
      if (shape.lower <= 1.5 && 1.5 <= shape.upper) covered++;
    }
    expect(covered / used).toBeGreaterThan(0.93);
    expect(covered / used).toBeLessThan(0.97);
  });
});
