import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { shrinkRates, StatisticsError } from '../../lib/statistics/index.ts';
import { check, loadCase } from '../reference/reference.ts';

describe('shrinkRates against published cases', () => {
  it.each(['eb-ships', 'eb-simfleet'])('%s', (id) => {
    const { expected, source } = loadCase(id);
    const about = { method: 'shrinkRates', source };
    const got = shrinkRates({ events: expected.events, exposure: expected.exposure });
    const { mle } = expected;
    const prior = got.prior as NonNullable<typeof got.prior>;
    check(
      about,
      [prior.shape, prior.rate, prior.mean, prior.logLikelihood],
      [mle.shape, mle.rate, mle.mean, mle.loglik],
      1e-5,
    );
    check(about, prior.covariance, mle.vcov_log_shape_log_rate.flat(), 1e-5);
    check(about, got.value, mle.shrunk, 1e-5);
    check(about, got.lower, mle.posterior_lower_95, 1e-5);
    check(about, got.upper, mle.posterior_upper_95, 1e-5);
    check(about, got.raw as number[], expected.raw, 1e-12);
    expect([got.heterogeneous, prior.converged]).toEqual([true, true]);
  });
});

describe('shrinkRates by hand', () => {
  it('counts of 0 and 2 on one mile each: the spread is no more than chance gives', () => {
    // Mean 1; Σ(y − 1)² = 2 = Σy, so the score for a spread at none, ½ Σ((y − m)² − y), is exactly zero.
    const got = shrinkRates({ events: [0, 2], exposure: [1, 1] });
    expect(got).toMatchObject({ heterogeneous: false, prior: null, pooled: 1 });
    expect([...got.value]).toEqual([1, 1]);
    // Exact limits of 2 in 2 miles from the gamma quantiles: P(X ≥ 2) = 1 − (1+μ)e^(−μ) = 0.025 at the lower one.
    const mean = 2 * (got.lower[0] as number);
    expect(1 - (1 + mean) * Math.exp(-mean)).toBeCloseTo(0.025, 12);
  });

  it('one mile each, counts 0 and 4: the closed equation in the shape', () => {
    // By symmetry the mean is 2. Score in a: Σ_j<y 1/(a+j) + 2[log a − log(a+2)] summed over y = 0, 4, the rest being 0.
    const { prior } = shrinkRates({ events: [0, 4], exposure: [1, 1] });
    const a = prior?.shape as number;
    expect(1 / a + 1 / (a + 1) + 1 / (a + 2) + 1 / (a + 3) + 2 * Math.log(a / (a + 2))).toBeCloseTo(0, 9);
    expect(prior?.mean).toBeCloseTo(2, 9);
  });
});

describe('shrinkRates averaged over priors', () => {
  it('five units: a brute-force posterior on a grid of 2.25 million priors (R 4.2.2 dnbinom, pgamma), within 0.3 %', () => {
    const got = shrinkRates({ events: [3, 9, 1, 6, 14], exposure: [4, 5, 3, 8, 6] }).averaged;
    const wanted = {
      value: [0.93321, 1.61571, 0.71941, 0.87582, 2.0038],
      lower: [0.27235, 0.81129, 0.084, 0.35841, 1.07453],
      upper: [1.85434, 2.80359, 1.67613, 1.56, 3.29129],
    };
    for (const column of ['value', 'lower', 'upper'] as const)
      wanted[column].forEach((number, unit) =>
        expect(Math.abs((got?.[column][unit] as number) / number - 1)).toBeLessThan(3e-3),
      );
  });

  it('where no spread is fitted the units still differ, and no interval is narrower than the common one', () => {
    const got = shrinkRates({ events: [4, 9, 6, 3, 8], exposure: [5, 7, 6, 5, 7] });
    expect(got.heterogeneous).toBe(false);
    const averaged = got.averaged as NonNullable<typeof got.averaged>;
    expect(averaged.value[1]).toBeGreaterThan(averaged.value[3] as number);
    averaged.lower.forEach((lower, unit) => {
      expect(lower).toBeLessThan(got.lower[unit] as number);
      expect(averaged.upper[unit]).toBeGreaterThan(got.upper[unit] as number);
    });
  });
});

describe('shrinkRates laws', () => {
  const units = fc.array(
    fc.record({ events: fc.integer({ min: 0, max: 60 }), exposure: fc.double({ min: 0.05, max: 50, noNaN: true }) }),
    { minLength: 2, maxLength: 25 },
  );
  const columns = (rows: { events: number; exposure: number }[]) => ({
    events: rows.map((row) => row.events),
    exposure: rows.map((row) => row.exposure),
  });

  it('every value lies between its raw rate and the prior mean, inside its limits; the gradient is zero', () => {
    fc.assert(
      fc.property(units, (rows) => {
        const got = shrinkRates(columns(rows));
        if (!got.prior) return;
        const { mean, converged } = got.prior;
        expect(converged).toBe(true);
        rows.forEach((row, unit) => {
          const [value, raw] = [got.value[unit] as number, row.events / row.exposure];
          const slack = 1e-12 * (raw + mean);
          expect(value).toBeGreaterThanOrEqual(Math.min(raw, mean) - slack);
          expect(value).toBeLessThanOrEqual(Math.max(raw, mean) + slack);
          expect(got.lower[unit]).toBeLessThan(value);
        });
      }),
    );
  });

  it('row order and unit of exposure do not matter', () => {
    fc.assert(
      fc.property(units, (rows) => {
        const one = shrinkRates(columns(rows));
        const turned = shrinkRates(
          columns([...rows].reverse().map((row) => ({ ...row, exposure: row.exposure * 1e6 }))),
        );
        expect(turned.heterogeneous).toBe(one.heterogeneous);
        const back = [...turned.value].reverse().map((value) => value * 1e6);
        back.forEach((value, unit) => expect(value / (one.value[unit] as number) || 1).toBeCloseTo(1, 5));
      }),
    );
  });
});

describe('shrinkRates on degenerate input', () => {
  it('no events, one unit, a unit without exposure', () => {
    const none = shrinkRates({ events: [0, 0], exposure: [1, 2] });
    expect(none).toMatchObject({ heterogeneous: false, reason: 'no events', pooled: 0 });
    expect(none.upper[0]).toBeCloseTo(-Math.log(0.025) / 3, 12);
    expect(shrinkRates({ events: [5], exposure: [2] })).toMatchObject({ heterogeneous: false, pooled: 2.5 });
    const idle = shrinkRates({ events: [0, 30, 2, 50], exposure: [0, 1, 1, 1] });
    expect(idle.raw[0]).toBeNull();
    expect(idle.value[0]).toBeCloseTo(idle.prior?.mean as number, 9);
  });

  it.each([
    ['exposure', { events: [0, 0], exposure: [0, 0] }],
    ['exposure[1]', { events: [1, 2], exposure: [1, 0] }],
    ['events[1]', { events: [1, 2.5], exposure: [1, 1] }],
    ['exposure', { events: [1, 2], exposure: [1] }],
    ['exposure', { events: [], exposure: [] }],
  ])('%s at fault: %o', (argument, data) => {
    expect(() => shrinkRates(data)).toThrow(StatisticsError);
    expect(() => shrinkRates(data)).toThrow(argument);
  });
});
