import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rateRatio, StatisticsError, type RateRatio } from '../../lib/statistics/index.ts';
import { check, loadCase, loadData, numbers } from '../reference/reference.ts';

interface Case {
  readonly events: [number, number];
  readonly exposure: [number, number];
  readonly null_ratio: number;
  readonly rate_ratio: number;
  readonly p_value_two_sided_r: number;
  readonly p_less: number;
  readonly p_greater: number;
  readonly p_two_sided_doubled: number;
  readonly p_two_sided_midp_doubled: number;
  readonly exact_ci: Record<string, [number, number]>;
}

function checkCase(source: string, want: Case) {
  const about = { method: 'rateRatio', source };
  const got = rateRatio(want, { nullRatio: want.null_ratio });
  const exact = got.exact as NonNullable<RateRatio['exact']>;
  check(
    about,
    [got.value, got.pValue, exact.pValueByLikelihood, exact.pLess, exact.pGreater, exact.midP.pValue] as number[],
    [
      want.rate_ratio,
      want.p_two_sided_doubled,
      want.p_value_two_sided_r,
      want.p_less,
      want.p_greater,
      want.p_two_sided_midp_doubled,
    ],
    1e-8,
  );
  for (const [name, limits] of Object.entries(want.exact_ci)) {
    const { lower, upper } = rateRatio(want, { level: Number(name.replace('level_', '')) / 100 });
    check(about, [lower, upper] as number[], limits, 1e-8);
  }
}

describe('rateRatio against published cases', () => {
  it.each(['rate-ratio-aml', 'rate-ratio-veteran'])('%s', (id) => {
    const { expected, source } = loadCase(id);
    checkCase(source, expected);
  });

  it.each(['zero', 'null1_5', 'help_page'])('rate-ratio-zero: %s', (part) =>
    checkCase('arithmetic (R poisson.test)', loadCase('rate-ratio-zero').expected[part]),
  );

  it('rate-change-vans, the exact part', () => {
    const { expected, source } = loadCase('rate-change-vans');
    checkCase(source, expected.exact);
  });

  it('Mantel–Haenszel over age bands, from the rows of the data set', () => {
    const { expected, source } = loadCase('mh-nickel');
    const data = loadData('nickel_strata');
    const got = rateRatio({
      events: numbers(data, 'lung'),
      exposure: numbers(data, 'person_years'),
      group: numbers(data, 'exposed'),
      strata: numbers(data, 'age'),
    });
    const about = { method: 'rateRatio (Mantel–Haenszel)', source };
    check(
      about,
      [got.value, got.standardErrorLog, got.lower, got.upper, got.pValue, got.crude] as number[],
      [expected.rate_ratio, expected.se_log, ...expected.ci_95, expected.p, expected.crude_ratio],
      1e-8,
    );
    expect([got.compared, got.reference, got.method]).toEqual(['1', '0', 'mantel-haenszel']);
  });
});

describe('rateRatio by hand', () => {
  it('one event against none on like exposure: a fair coin', () => {
    const got = rateRatio({ events: [1, 0], exposure: [10, 10] });
    // Given one event it falls on either side with p = 1/2. Lower: p = 0.025, odds 1/39. Mid-p: p/2 = 0.025, odds 1/19.
    expect(got).toMatchObject({ value: null, upper: null, pValue: 1, reason: 'no events in the reference group' });
    expect(got.lower).toBeCloseTo(1 / 39, 12);
    expect(got.exact).toMatchObject({
      pLess: 1,
      pGreater: 0.5,
      pValueByLikelihood: 1,
      midP: { pValue: 0.5, upper: null },
    });
    expect(got.exact?.midP.lower).toBeCloseTo(1 / 19, 12);
  });

  it('two against none: p = 1/4 at the tail; limits √0.025 and by mid-p √0.05', () => {
    const got = rateRatio({ events: [0, 2], exposure: [10, 10] });
    const odds = (p: number) => (1 - p) / p;
    expect(got.exact?.pLess).toBeCloseTo(0.25, 14);
    expect(got.upper).toBeCloseTo(odds(Math.sqrt(0.025)), 10);
    expect(got.exact?.midP.upper).toBeCloseTo(odds(Math.sqrt(0.05)), 10);
  });

  it('Mantel–Haenszel on two strata', () => {
    // R = 4·10/20 + 6·20/40 = 5; S = 2·10/20 + 3·20/40 = 2.5; V = 6·100/400 + 9·400/1600 = 3.75.
    const got = rateRatio({
      events: [2, 4, 3, 6],
      exposure: [10, 10, 20, 20],
      group: ['no', 'yes', 'no', 'yes'],
      strata: [1, 1, 2, 2],
    });
    expect(got.value).toBeCloseTo(2, 14);
    expect(got.standardErrorLog).toBeCloseTo(Math.sqrt(3.75 / 12.5), 14);
  });

  it('robust limits: the jackknife worked on 32 vehicles of one mile, 8 of 16 and 4 of 16 failing', () => {
    const zeros = (count: number) => new Array<number>(count).fill(0);
    const ones = (count: number) => new Array<number>(count).fill(1);
    // Ratio 2. Left out: a failing compared vehicle gives 2·(7/15)/(8/16), a sound one 2·(8/15)/(8/16), and so on.
    const squares = 8 * Math.log(14 / 15) ** 2 + 20 * Math.log(16 / 15) ** 2 + 4 * Math.log(12 / 15) ** 2;
    const got = rateRatio({
      events: [...ones(8), ...zeros(8), ...ones(4), ...zeros(12)],
      exposure: ones(32),
      group: { levels: ['without', 'with'], codes: [...ones(16), ...zeros(16)] },
      cluster: Array.from({ length: 32 }, (_, index) => index),
    });
    expect(got.robust?.value).toBeCloseTo(2, 14);
    expect(got.robust?.standardErrorLog).toBeCloseTo(Math.sqrt((31 / 32) * squares), 12);
    // t(0.975; 15) as any table prints it.
    const reach = Math.log((got.robust?.upper as number) / 2) / (got.robust?.standardErrorLog as number);
    expect(reach).toBeCloseTo(2.13145, 5);
  });

  it('robust, one vehicle in both groups and two strata: each left out by building the table anew', () => {
    const rows = {
      events: [2, 1, 3, 1, 0, 2, 1, 4],
      exposure: [5, 4, 6, 3, 2, 7, 5, 6],
      group: [0, 1, 0, 1, 1, 0, 1, 1],
      strata: [1, 1, 2, 2, 1, 1, 2, 2],
      cluster: ['a', 'a', 'b', 'b', 'c', 'c', 'd', 'd'],
    };
    const whole = Math.log(rateRatio(rows).value as number);
    const without = ['a', 'b', 'c', 'd'].map((vehicle) => {
      const keep = <T>(column: readonly T[]) => column.filter((_, row) => rows.cluster[row] !== vehicle);
      const left = { events: keep(rows.events), exposure: keep(rows.exposure), strata: keep(rows.strata) };
      return Math.log(rateRatio({ ...left, group: keep(rows.group) }).value as number);
    });
    const squares = without.reduce((sum, log) => sum + (log - whole) ** 2, 0);
    expect(rateRatio(rows).robust?.standardErrorLog).toBeCloseTo(Math.sqrt((3 / 4) * squares), 12);
  });
});

describe('rateRatio laws', () => {
  const count = fc.integer({ min: 0, max: 500 });
  const miles = fc.double({ min: 0.01, max: 1e6, noNaN: true });

  it('exchanging the groups turns the ratio and its limits over', () => {
    fc.assert(
      fc.property(count, count, miles, miles, (a, b, t1, t0) => {
        const one = rateRatio({ events: [a, b], exposure: [t1, t0] });
        const other = rateRatio({ events: [b, a], exposure: [t0, t1] });
        if (one.upper !== null && one.upper > 0)
          expect((one.upper * (other.lower as number) - 1) ** 2).toBeLessThan(1e-18);
        expect(one.pValue ?? 1).toBeCloseTo(other.pValue ?? 1, 12);
        expect(one.exact?.pValueByLikelihood).toBeCloseTo(other.exact?.pValueByLikelihood as number, 12);
      }),
    );
  });

  it('the exact p-value is below α just when the limits leave out the tested ratio', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 60 }),
        fc.integer({ min: 1, max: 60 }),
        fc.double({ min: 0.2, max: 5, noNaN: true }),
        (a, b, nullRatio) => {
          const { pValue, lower, upper, exact } = rateRatio({ events: [a, b], exposure: [1, 1] }, { nullRatio });
          expect((pValue as number) < 0.05).toBe(nullRatio < (lower as number) || nullRatio > (upper as number));
          const midP = exact?.midP as { lower: number; upper: number; pValue: number };
          expect(midP.pValue < 0.05).toBe(nullRatio < midP.lower || nullRatio > midP.upper);
        },
      ),
    );
  });

  it('one stratum is the crude ratio; equal strata change nothing; row order changes nothing', () => {
    const rows = { events: [4, 9, 5, 2], exposure: [50, 40, 30, 60], group: ['a', 'b', 'b', 'a'] };
    const one = rateRatio({ ...rows, strata: [1, 1, 1, 1] });
    expect(one.value).toBeCloseTo(one.crude as number, 13);
    const turned = {
      events: [2, 5, 9, 4],
      exposure: [60, 30, 40, 50],
      group: { levels: ['a', 'b'], codes: [0, 1, 1, 0] },
    };
    expect(rateRatio(turned)).toEqual(rateRatio(rows));
  });
});

describe('rateRatio on degenerate input', () => {
  it('says what cannot be told', () => {
    expect(rateRatio({ events: [0, 0], exposure: [1, 1] })).toMatchObject({
      value: null,
      lower: 0,
      upper: null,
      pValue: null,
      reason: 'no events',
    });
    expect(rateRatio({ events: [0, 3], exposure: [0, 1] })).toMatchObject({
      value: null,
      reason: 'no exposure in the compared group',
    });
    const noCases = rateRatio({
      events: [0, 0, 3, 0],
      exposure: [1, 1, 0, 1],
      group: [0, 1, 0, 1],
      strata: [1, 1, 1, 2],
    });
    expect(noCases).toMatchObject({ value: 0, lower: null, reason: expect.stringContaining('compared group') });
  });

  it('one huge and one tiny count keep their digits', () => {
    const got = rateRatio({ events: [1_000_000, 1], exposure: [1, 1] });
    // Lower limit: P(X ≤ 1) of a Poisson with mean near a/odds; upper: −ln 0.975. Relative error of that view is ~1e-6.
    expect((got.upper as number) / (1e6 / -Math.log(0.975))).toBeCloseTo(1, 5);
    expect((got.lower as number) / (1e6 / 5.571643390938898)).toBeCloseTo(1, 2);
  });

  it.each([
    ['group', { events: [1, 2, 3], exposure: [1, 1, 1], group: [1, 2, 3] }, {}],
    ['group', { events: [1, 2], exposure: [1, 1], group: [1, 1] }, {}],
    ['events', { events: [1, 2, 3], exposure: [1, 1, 1] }, {}],
    ['exposure', { events: [1, 2], exposure: [0, 1] }, {}],
    ['nullRatio', { events: [1, 2], exposure: [1, 1] }, { nullRatio: 0 }],
    ['cluster', { events: [1, 2], exposure: [1, 1], cluster: [1] }, {}],
  ])('%s at fault', (argument, data, options) => {
    expect(() => rateRatio(data, options)).toThrow(StatisticsError);
    expect(() => rateRatio(data, options)).toThrow(argument);
  });
});
