import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coxRegression } from '../../lib/statistics/cox-regression.ts';
import { eventRate } from '../../lib/statistics/event-rate.ts';
import { kaplanMeier } from '../../lib/statistics/kaplan-meier.ts';
import { covariateByPiece, splitTime, type SplitTime } from '../../lib/statistics/split-time.ts';
import type { SurvivalData } from '../../lib/statistics/survival-data.ts';
import { check, loadCase, loadData, numbers } from '../reference/reference.ts';

/** Whole-number times, so that cuts fall on exits and entries and events tie. */
const lives = fc
  .array(
    fc.record({
      entry: fc.integer({ min: 0, max: 20 }),
      watched: fc.integer({ min: 1, max: 30 }),
      event: fc.integer({ min: 0, max: 1 }),
      x: fc.integer({ min: -3, max: 3 }),
      level: fc.integer({ min: 0, max: 2 }),
      stratum: fc.integer({ min: 0, max: 1 }),
      weight: fc.constantFrom(0.5, 1, 2),
      vehicle: fc.integer({ min: 0, max: 9 }),
    }),
    { minLength: 40, maxLength: 80 },
  )
  .map((rows) => ({
    entry: rows.map(({ entry }) => entry),
    exit: rows.map(({ entry, watched }) => entry + watched),
    event: rows.map(({ event }, row) => (row < 12 ? 1 : event)),
    weight: rows.map(({ weight }) => weight),
    strata: rows.map(({ stratum }) => `shop ${stratum}`),
    cluster: rows.map(({ vehicle }) => vehicle),
    covariates: {
      x: rows.map(({ x }) => x),
      level: { levels: ['a', 'b', 'c'], codes: rows.map(({ level }) => level) },
    },
  }));
const cutting = fc.uniqueArray(fc.integer({ min: 1, max: 45 }), { minLength: 1, maxLength: 4 });
const near = (got: ArrayLike<number>, want: ArrayLike<number>, digits: number) =>
  expect([...Array.from(got)]).toEqual(Array.from(want, (value) => expect.closeTo(value, digits)));

describe('splitTime', () => {
  it('cuts three rows by hand', () => {
    const data = {
      entry: [0, 5, 2],
      exit: [12, 10, 5],
      event: [1, 0, 1],
      weight: [1, 2, 3],
      group: ['p', 'q', 'p'],
      cluster: { levels: ['v', 'w'], codes: [1, 0, 1] },
      covariates: { x: [7, 8, 9], y: { levels: ['no', 'yes'], codes: [1, 0, 1] } },
    };
    const split = splitTime(data, [5, 10]);
    expect([...split.row]).toEqual([0, 0, 0, 1, 2]);
    expect([...split.piece]).toEqual([0, 1, 2, 1, 0]);
    expect([...split.entry]).toEqual([0, 5, 10, 5, 2]);
    expect([...split.exit]).toEqual([5, 10, 12, 10, 5]);
    expect([...split.event]).toEqual([0, 0, 1, 0, 1]);
    expect(Array.from(split.weight ?? [])).toEqual([1, 1, 1, 2, 3]);
    expect(split.group).toEqual(['p', 'p', 'p', 'q', 'p']);
    expect(split.cluster).toEqual({ levels: ['v', 'w'], codes: Int32Array.of(1, 1, 1, 0, 1) });
    expect(covariateByPiece(split.covariates?.['x'] ?? [], split, ['a', 'b', 'c'])).toEqual({
      a: Float64Array.of(7, 0, 0, 0, 9),
      b: Float64Array.of(0, 7, 0, 8, 0),
      c: Float64Array.of(0, 0, 7, 0, 0),
    });
    const { later } = covariateByPiece(split.covariates?.['y'] ?? [], split, ['early', 'later', 'last']);
    expect(later).toEqual({ levels: ['no', 'yes'], codes: Int32Array.of(0, 1, 0, 0, 0) });
  });

  it('refuses cuts out of order, exits before entries, and the wrong number of names', () => {
    const data = { exit: [3, 4], event: [1, 0] };
    expect(() => splitTime(data, [2, 2])).toThrow(/cuts.*not above 2/);
    expect(() => splitTime(data, [0])).toThrow(/cuts.*not above 0/);
    expect(() => splitTime({ ...data, entry: [0, 4] }, [2])).toThrow(/exit.*not after its entry/);
    expect(() => splitTime({ ...data, event: [1] }, [2])).toThrow(/event/);
    expect(() => covariateByPiece([1, 1, 1, 1], splitTime(data, [2]), ['one'])).toThrow(/names/);
  });

  it('changes no Cox fit', () => {
    fc.assert(
      fc.property(lives, cutting, fc.constantFrom('efron' as const, 'breslow' as const), (data, cuts, ties) => {
        const ascending = cuts.sort((a, b) => a - b);
        const [whole, split] = [data, splitTime(data, ascending)].map((rows) => coxRegression(rows, { ties }));
        near(split?.coefficients ?? [], whole?.coefficients ?? [], 8);
        near(split?.covariance ?? [], whole?.covariance ?? [], 8);
        near(split?.robustCovariance ?? [], whole?.robustCovariance ?? [], 8);
        expect(split?.logLikelihood).toBeCloseTo(whole?.logLikelihood ?? NaN, 9);
      }),
      { numRuns: 60 },
    );
  });

  it('changes no life curve, an exit at zero among the rows', () => {
    fc.assert(
      fc.property(lives, cutting, ({ exit, event, weight }, cuts) => {
        const data: SurvivalData = { exit: [0, ...exit], event: [1, ...event], weight: [1, ...weight] };
        const [split] = kaplanMeier(
          splitTime(
            data,
            cuts.sort((a, b) => a - b),
          ),
        );
        const [whole] = kaplanMeier(data);
        const at = (time: number, curve = whole) => curve?.survival[curve.time.findLastIndex((t) => t <= time)] ?? 1;
        for (const time of whole?.time ?? []) expect(at(time, split)).toBeCloseTo(at(time), 12);
      }),
    );
  });
});

describe('splitTime v R: a piecewise-constant hazard', () => {
  const compare = (id: string, split: SplitTime) => {
    const { expected } = loadCase(id);
    const about = { method: 'splitTime', source: id };
    const rates = [0, 1, 2, 3].map((wanted) => {
      const inside = [...split.row.keys()].filter((row) => split.piece[row] === wanted);
      const exposure = inside.map((row) => (split.exit[row] as number) - (split.entry[row] as number));
      return eventRate({ events: inside.map((row) => split.event[row] as number), exposure });
    });
    check(
      about,
      rates.map(({ events }) => events),
      expected.events,
      0,
    );
    check(
      about,
      rates.map(({ exposure }) => exposure),
      expected.exposure,
      1e-12,
    );
    check(
      about,
      rates.map(({ rate }) => rate.value as number),
      expected.rate,
      1e-9,
    );
    const limits = rates.flatMap(({ rate }) => [rate.lower as number, rate.upper as number]);
    check(about, limits, expected.exact_ci_95.flat(), 1e-9);
    // Log-likelihood of the piecewise model at its maximum: Σ events · log rate − events.
    const fitted = rates.reduce((sum, { events, rate }) => sum + events * Math.log(rate.value as number) - events, 0);
    check(about, fitted, expected.loglik, 1e-9);
  };

  it('pwe-veteran', () => {
    const data = loadData('veteran');
    compare('pwe-veteran', splitTime({ exit: numbers(data, 'time'), event: numbers(data, 'status') }, [30, 90, 180]));
  });

  it('pwe-simseals', () => {
    const data = loadData('sim_lt_seals');
    const [exit, event, entry] = ['miles_k', 'failed', 'entry'].map((name) => numbers(data, name));
    compare('pwe-simseals', splitTime({ exit: exit ?? [], event: event ?? [], entry: entry ?? [] }, [100, 200, 300]));
  });
});
