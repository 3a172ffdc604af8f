import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { eventRate, StatisticsError } from '../../lib/statistics/index.ts';
import { check, loadCase, loadData, numbers } from '../reference/reference.ts';

const about = (source: string) => ({ method: 'eventRate', source });
type Side = { lower: number; upper: number };
type Limits = { two_sided: Side; one_sided: Side };
const finite = (value: number) => (value === Infinity ? null : value);

function checkLimits(source: string, events: number, exposure: number, limits: Record<string, unknown>) {
  for (const [name, both] of Object.entries(limits)) {
    const level = Number(name.replace('level_', '')) / 100;
    for (const termination of ['time', 'failure'] as const) {
      const want = (both as Record<string, Limits | null>)[`${termination}_terminated`];
      if (!want) continue;
      const two = eventRate({ events, exposure }, { level, termination });
      check(about(source), two.meanBetween.lower as number, want.two_sided.lower, 1e-9);
      if (finite(want.two_sided.upper) === null) expect(two.meanBetween.upper).toBeNull();
      else check(about(source), two.meanBetween.upper as number, want.two_sided.upper, 1e-9);
      const lower = eventRate({ events, exposure }, { level, termination, sided: 'lower' }).meanBetween;
      check(about(source), lower.lower as number, want.one_sided.lower, 1e-9);
      expect(lower.upper).toBeNull();
      const upper = eventRate({ events, exposure }, { level, termination, sided: 'upper' }).meanBetween;
      expect(upper.lower).toBeNull();
      if (finite(want.one_sided.upper) === null) expect(upper.upper).toBeNull();
      else check(about(source), upper.upper as number, want.one_sided.upper, 1e-9);
    }
  }
}

function checkRate(source: string, rate: { events: number; exposure: number; rate: number; exact_ci: object }) {
  for (const [name, [lower, upper]] of Object.entries(rate.exact_ci) as [string, [number, number]][]) {
    const got = eventRate(rate, { level: Number(name.replace('level_', '')) / 100 });
    check(about(source), [got.rate.value as number, got.rate.lower as number], [rate.rate, lower], 1e-9);
    check(about(source), got.rate.upper as number, upper, 1e-9);
  }
}

describe('eventRate against published cases', () => {
  it.each(['mtbf-genfan', 'mtbf-valveseat', 'mtbf-aircond', 'mtbf-ovarian'])('%s', (id) => {
    const { expected, source } = loadCase(id);
    check(
      about(source),
      eventRate({ events: expected.failures, exposure: expected.total }).meanBetween.value as number,
      expected.mtbf,
      1e-9,
    );
    checkLimits(source, expected.failures, expected.total, expected.limits);
    checkRate(source, expected.rate);
  });

  it('small counts, zero among them', () => {
    for (const part of loadCase('mtbf-small-counts').expected) {
      checkLimits('arithmetic (R qchisq)', part.failures, part.total, part.limits);
      checkRate('arithmetic (R poisson.test)', part.rate);
    }
  });

  it('rows of the data set give the totals of the case', () => {
    const data = loadData('genfan');
    const { expected } = loadCase('mtbf-genfan');
    const rate = eventRate({ events: numbers(data, 'status'), exposure: numbers(data, 'hours') });
    expect([rate.events, rate.exposure]).toEqual([expected.failures, expected.total]);
  });

  it('NIST/SEMATECH e-Handbook 8.4.5.1 factors and example', () => {
    const { expected, source } = loadCase('nist-mtbf-factors');
    const [lower, upper] = expected.example.ci_90;
    const example = eventRate({ events: 2, exposure: 800 }, { level: 0.9 });
    check(
      about(source),
      [example.meanBetween.lower as number, example.meanBetween.upper as number],
      [lower, upper],
      1e-9,
    );
    expected.r.forEach((events: number, index: number) => {
      const factors = expected.factors[index] as Record<string, [number, number | null]>;
      for (const [percent, [low, high]] of Object.entries(factors)) {
        // A factor multiplies the mean T/r, so that T = r gives it alone; at r = 0 it multiplies T.
        const got = eventRate({ events, exposure: Math.max(events, 1) }, { level: Number(percent) / 100 }).meanBetween;
        check(about(source), got.lower as number, low, 1e-9);
        if (high !== null) check(about(source), got.upper as number, high, 1e-9);
      }
    });
  });
});

describe('eventRate by hand', () => {
  it('zero events: the lower limit is T over the exponential quantile, T/3.689 at 95 %', () => {
    const none = eventRate({ events: 0, exposure: 1e6 });
    // P(no event) = e^(−μ) = 0.025, so μ = −ln 0.025 = 3.6889.
    expect(none.meanBetween.lower).toBeCloseTo(1e6 / -Math.log(0.025), 5);
    expect(none.meanBetween).toMatchObject({ value: null, upper: null });
    expect(none.rate).toMatchObject({ value: 0, lower: 0 });
    expect(none.reason).toBe('no events');
  });

  it('one event, failure-terminated: exponential quantiles at both ends', () => {
    const one = eventRate({ events: 1, exposure: 100 }, { termination: 'failure' }).meanBetween;
    expect(one.lower).toBeCloseTo(100 / -Math.log(0.025), 9);
    expect(one.upper).toBeCloseTo(100 / -Math.log(0.975), 6);
  });

  it('robust limits: the jackknife worked on three vehicles', () => {
    // Vehicles with 3, 3 and 0 failures in 2 miles each; rate 1. Left out in turn: 3/4, 3/4 and 6/4.
    const { robust } = eventRate({ events: [1, 2, 3, 0], exposure: [1, 1, 2, 2], cluster: ['a', 'a', 'b', 'c'] });
    const spread = Math.sqrt((2 / 3) * (2 * Math.log(0.75) ** 2 + Math.log(1.5) ** 2));
    expect(robust?.clusters).toBe(3);
    expect(robust?.standardErrorLog).toBeCloseTo(spread, 12);
    // Student's t with two degrees of freedom in closed form: t²/(2 + t²) = 0.95² at 0.975.
    const t = Math.sqrt((2 * 0.95 ** 2) / (1 - 0.95 ** 2));
    expect(robust?.rate.upper).toBeCloseTo(Math.exp(t * spread), 9);
    expect(robust?.meanBetween.lower).toBeCloseTo(Math.exp(-t * spread), 9);
  });
});

describe('eventRate laws', () => {
  const counts = fc.record({
    events: fc.integer({ min: 0, max: 2000 }),
    exposure: fc.double({ min: 1e-3, max: 1e9, noNaN: true }),
  });

  it('limits hold the value and the mean between is the inverse', () => {
    fc.assert(
      fc.property(counts, fc.double({ min: 0.3, max: 0.999, noNaN: true }), (data, level) => {
        const { rate, meanBetween } = eventRate(data, { level });
        expect(rate.lower).toBeLessThanOrEqual(rate.value as number);
        expect(rate.upper).toBeGreaterThan(rate.value as number);
        if (data.events > 0) expect((meanBetween.value as number) * (rate.value as number)).toBeCloseTo(1, 12);
        expect((meanBetween.lower as number) * (rate.upper as number)).toBeCloseTo(1, 12);
      }),
    );
  });

  it('a change of unit divides the rate and its limits', () => {
    fc.assert(
      fc.property(counts, fc.double({ min: 1e-3, max: 1e3, noNaN: true }), ({ events, exposure }, unit) => {
        const [one, other] = [eventRate({ events, exposure }), eventRate({ events, exposure: exposure * unit })];
        expect((other.rate.upper as number) * unit).toBeCloseTo(
          one.rate.upper as number,
          6 - Math.log10(1 + (one.rate.upper as number)),
        );
      }),
    );
  });

  it('splitting a row, or turning the rows round, changes nothing', () => {
    const whole = eventRate({ events: [2, 1, 0], exposure: [10, 20, 5], cluster: [1, 2, 3] });
    const split = eventRate({ events: [0, 1, 1, 1], exposure: [5, 20, 4, 6], cluster: [3, 2, 1, 1] });
    expect(split).toEqual(whole);
  });
});

describe('eventRate on degenerate input', () => {
  it('no exposure and no rows say so', () => {
    const nothing = { value: null, lower: null, upper: null };
    expect(eventRate({ events: 0, exposure: 0 })).toMatchObject({
      rate: nothing,
      meanBetween: nothing,
      reason: 'no exposure',
    });
    expect(eventRate({ events: [], exposure: [] })).toMatchObject({ rate: nothing, reason: 'no exposure' });
  });

  it('robust limits that cannot be had are null with a reason', () => {
    expect(eventRate({ events: [1, 1], exposure: [2, 2], cluster: [1, 1] }).robust?.reason).toBe(
      'fewer than two clusters',
    );
    expect(eventRate({ events: [2, 0], exposure: [2, 2], cluster: [1, 2] }).robust?.reason).toBe(
      'one cluster has all the events',
    );
    expect(eventRate({ events: [1, 1], exposure: [2, 2], cluster: [1, 2] }).robust?.reason).toBe(
      'the clusters do not differ',
    );
    const none = eventRate({ events: [0, 0], exposure: [2, 2], cluster: [1, 2] }).robust;
    expect(none).toMatchObject({ reason: 'no events', rate: { value: 0, lower: null, upper: null } });
  });

  it.each([
    ['events', { events: 1.5, exposure: 1 }, {}],
    ['events', { events: -1, exposure: 1 }, {}],
    ['events', { events: NaN, exposure: 1 }, {}],
    ['exposure', { events: 0, exposure: -1 }, {}],
    ['exposure', { events: 1, exposure: 0 }, {}],
    ['exposure', { events: [1, 2], exposure: [1] }, {}],
    ['events', { events: 0, exposure: 1 }, { termination: 'failure' as const }],
    ['level', { events: 1, exposure: 1 }, { level: 1 }],
  ])('%s at fault: %o %o', (argument, data, options) => {
    expect(() => eventRate(data, options)).toThrow(StatisticsError);
    expect(() => eventRate(data, options)).toThrow(argument);
  });
});
