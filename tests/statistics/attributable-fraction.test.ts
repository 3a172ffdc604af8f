import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { attributableFraction, type AttributableOptions } from '../../lib/statistics/attributable-fraction.ts';
import { attributableFractionOfFit } from '../../lib/statistics/attributable-fraction-of-fit.ts';
import { coxRegression } from '../../lib/statistics/cox-regression.ts';
import { coxResiduals } from '../../lib/statistics/cox-residuals.ts';
import { poissonRegression } from '../../lib/statistics/poisson-regression.ts';
import { check, loadCase, loadData, numbers } from '../reference/reference.ts';

const colon = (() => {
  const all = loadData('colon');
  const kept = [...numbers(all, 'etype').keys()].filter((row) => numbers(all, 'etype')[row] === 1);
  const take = (name: string) => Float64Array.from(kept, (row) => numbers(all, name)[row] as number);
  const covariates = { obstruct: take('obstruct'), node4: take('node4'), sex: take('sex'), age: take('age') };
  return { exit: take('time'), event: take('status'), covariates };
})();
const colonFit = coxRegression(colon);
const nickel = (() => {
  const cells = loadData('nickel_strata');
  const column = (name: string) => numbers(cells, name);
  const keys = [...column('age').keys()].map((row) => `${column('exposed')[row]} ${column('age')[row]}`);
  const groups = [...new Set(keys)];
  const total = (name: string) =>
    groups.map((key) => keys.reduce((sum, one, row) => sum + (one === key ? (column(name)[row] as number) : 0), 0));
  const ages = [...new Set(groups.map((key) => key.split(' ')[1] as string))];
  return {
    events: total('lung'),
    exposure: total('person_years'),
    covariates: {
      exposed: groups.map((key) => Number(key.split(' ')[0])),
      age: { levels: ages, codes: groups.map((key) => ages.indexOf(key.split(' ')[1] as string)) },
    },
  };
})();

interface Published {
  log_rr: number;
  se_log_rr: number;
  cases: number;
  cases_exposed: number;
  paf: number;
  se_delta: number;
  ci95_plain: number[];
  ci95_log1m: number[];
}

function compare(
  source: string,
  want: Published,
  fraction: (options: AttributableOptions) => ReturnType<typeof attributableFraction>,
) {
  const about = { method: 'attributableFraction', source };
  const plain = fraction({ interval: 'plain', sameFailures: false });
  const { lower, upper } = fraction({ sameFailures: false });
  check(about, [plain.value ?? NaN, plain.standardError ?? NaN], [want.paf, want.se_delta], 1e-6);
  check(about, [plain.lower ?? NaN, plain.upper ?? NaN], want.ci95_plain, 1e-6);
  check(about, [lower ?? NaN, upper ?? NaN], want.ci95_log1m, 1e-6);
  check(about, plain.cases, want.cases, 1e-12);
}

describe('attributableFraction v R', () => {
  const { expected } = loadCase('paf-colon-cox');

  it.each(['obstruct', 'node4'])('paf-colon-cox %s', (name) => {
    const want: Published = expected[name];
    const failures = {
      cases: [want.cases - want.cases_exposed, want.cases_exposed],
      coefficients: [want.log_rr],
      covariance: [want.se_log_rr ** 2],
    };
    compare(`paf-colon-cox ${name}`, want, (options) => attributableFraction(failures, options));
    const ofFit = (options: AttributableOptions) =>
      attributableFractionOfFit(colon, colonFit, { ...options, exposures: [name] });
    compare(`paf-colon-cox ${name}, of the fit`, want, ofFit);
  });

  it('paf-colon-cox both together', () => {
    const both = attributableFractionOfFit(colon, colonFit, { exposures: ['obstruct', 'node4'] });
    check(
      { method: 'attributableFraction', source: 'paf-colon-cox joint' },
      both.value ?? NaN,
      expected.joint_bruzzi,
      1e-6,
    );
  });

  it('paf-nickel-poisson', () => {
    const want = loadCase('paf-nickel-poisson').expected as Published;
    const fit = poissonRegression(nickel);
    compare('paf-nickel-poisson', want, (options) =>
      attributableFractionOfFit({ ...nickel, event: nickel.events }, fit, { ...options, exposures: ['exposed'] }),
    );
  });

  it('robust limits of the Cox fit are as wide as the bootstrap of the pack, the independent ones are not', () => {
    const influence = coxResiduals(colon, colonFit).dfbeta;
    for (const [exposures, [from, to]] of [
      [['obstruct'], expected.bootstrap_95.obstruct],
      [['node4'], expected.bootstrap_95.node4],
      [['obstruct', 'node4'], expected.bootstrap_95.joint],
    ] as [string[], [number, number]][]) {
      const fraction = attributableFractionOfFit(colon, colonFit, { exposures, influence });
      const width = (limits: { lower: number | null; upper: number | null } | null) =>
        ((limits?.upper ?? NaN) - (limits?.lower ?? NaN)) / (to - from);
      // 1,000 resamples leave some 4 % of chance on a limit's distance.
      expect(Math.abs(width(fraction.robust) - 1)).toBeLessThan(0.1);
      expect(Math.abs(width(fraction) - 1)).toBeLessThan(0.1);
      const apart = attributableFractionOfFit(colon, colonFit, { exposures, influence, sameFailures: false });
      expect(width(apart)).toBeLessThan(0.9);
    }
  });
});

describe('attributableFraction by hand', () => {
  it('crude, one cohort: log(1 − fraction) has the variance of log(share of failures unexposed)', () => {
    // 30 of 300 exposed and 10 of 200 unexposed: ratio 2, fraction 30/40 · (1 − 1/2) = 3/8. With the sizes known
    // 1 − fraction = (10/40) · 500/200, whose logarithm varies as that of a binomial share: 0.75 / (40 · 0.25).
    const failures = { cases: [10, 30], coefficients: [Math.log(2)], covariance: [1 / 10 + 1 / 30] };
    const fraction = attributableFraction(failures);
    expect(fraction.value).toBeCloseTo(3 / 8, 14);
    const spread = Math.exp(1.959963984540054 * Math.sqrt(0.75 / (40 * 0.25)));
    expect(fraction.lower).toBeCloseTo(1 - (5 / 8) * spread, 10);
    expect(fraction.upper).toBeCloseTo(1 - 5 / 8 / spread, 10);
    expect(fraction.standardError).toBeCloseTo((5 / 8) * Math.sqrt(0.075), 12);
  });

  it('three levels: shares 1/2, 1/4, 1/4 with ratios 1, 2, 4', () => {
    const failures = { cases: [20, 10, 10], coefficients: [Math.log(2), Math.log(4)], covariance: [0, 0, 0, 0] };
    const fraction = attributableFraction(failures, { sameFailures: false });
    expect(fraction.value).toBeCloseTo(1 - (1 / 2 + 1 / 8 + 1 / 16), 14);
    // Known ratios: the variance of 1, 1/2, 1/4 drawn with those shares, over 40 failures.
    const variance = (1 / 2 + 1 / 16 + 1 / 64 - (11 / 16) ** 2) / 40;
    expect(fraction.standardError).toBeCloseTo(Math.sqrt(variance), 14);
  });

  it('a Cox fit on one event time: every number from the counts', () => {
    // Breslow, all events at 1: 2 of 4 exposed and 1 of 5 others fail, ratio 5/2, share exposed 2/3.
    const x = [1, 1, 0, 1, 1, 0, 0, 0, 0];
    const data = {
      exit: x.map((_, row) => (row < 3 ? 1 : 2)),
      event: x.map((_, row) => (row < 3 ? 1 : 0)),
      covariates: { x },
    };
    const fit = coxRegression(data, { ties: 'breslow' });
    const influence = coxResiduals(data, fit).dfbeta;
    const fraction = attributableFractionOfFit(data, fit, { exposures: ['x'], influence });
    expect(fraction.value).toBeCloseTo((2 / 3) * (1 - 2 / 5), 10);
    expect(fraction.standardError).toBeCloseTo(
      attributableFraction({ cases: [1, 2], coefficients: fit.coefficients, covariance: fit.covariance })
        .standardError as number,
      10,
    );
    // 1 − fraction = (n/n₀) · (d₀/d) with n = 9, n₀ = 5, d₀ = 1, d = 3. A failure moves d₀/d by (1 − d₀/d)/d unexposed
    // (times 9/5: 2/5), by −(d₀/d)/d exposed (−1/5). A row moves n/n₀ by 1/n₀ exposed (times 1/3: 1/15), by
    // 1/n₀ − n/n₀² unexposed (−4/75).
    const moves = [
      ...[1, 1].map(() => -1 / 5 + 1 / 15),
      2 / 5 - 4 / 75,
      ...[1, 1].map(() => 1 / 15),
      ...[1, 1, 1, 1].map(() => -4 / 75),
    ];
    const error = Math.sqrt(moves.reduce((sum, move) => sum + move * move, 0));
    expect(fraction.robust?.standardError).toBeCloseTo(error, 10);
    expect(fraction.robust?.clusters).toBe(9);
  });

  it('a Poisson fit of two cells: robust to clusters from the counts', () => {
    // One cluster a cell of counts 6, 4 exposed and 3, 2 not, exposure 10 each: 1 − fraction = 2 · 5/15.
    const data = { events: [6, 4, 3, 2], exposure: [10, 10, 10, 10], covariates: { x: [1, 1, 0, 0] } };
    const fit = poissonRegression(data);
    const fraction = attributableFractionOfFit({ ...data, event: data.events, cluster: ['a', 'b', 'a', 'b'] }, fit, {
      exposures: ['x'],
      expected: fit.expected(data),
    });
    expect(fraction.value).toBeCloseTo(1 - 2 / 3, 10);
    // 1 − fraction = 2 d₀/d with d₀ = 5, d = 15, moved by 2 (d − d₀)/d² = 20/225 a failure above the mean unexposed and
    // −2 d₀/d² = −10/225 exposed. Clusters a and b hold 1 and −1 exposed, 1/2 and −1/2 unexposed above their means.
    expect(fraction.robust?.clusters).toBe(2);
    const cluster = (exposedAway: number, unexposedAway: number) => (20 * unexposedAway - 10 * exposedAway) / 225;
    const error = Math.hypot(cluster(1, 0.5), cluster(-1, -0.5));
    expect(fraction.robust?.standardError).toBeCloseTo(error, 10);
  });

  it('says why there is no value', () => {
    const none = attributableFraction({ cases: [0, 0], coefficients: [1], covariance: [1] });
    expect(none).toMatchObject({ value: null, lower: null, upper: null, reason: 'no failures' });
    const infinite = attributableFraction({ cases: [0, 3], coefficients: [Infinity], covariance: [Infinity] });
    expect(infinite).toMatchObject({ value: null, cases: 3 });
    expect(infinite.reason).toMatch(/infinite/);
  });

  it('refuses counts below zero, lengths that do not fit, names that are not there, clusters without influence', () => {
    const good = { cases: [1, 2], coefficients: [1], covariance: [1] };
    expect(() => attributableFraction({ ...good, cases: [1, -2] })).toThrow(/cases/);
    expect(() => attributableFraction({ ...good, cases: [1] })).toThrow(/cases/);
    expect(() => attributableFraction({ ...good, covariance: [1, 2] })).toThrow(/covariance/);
    expect(() => attributableFraction(good, { level: 1 })).toThrow(/level/);
    expect(() => attributableFractionOfFit(colon, colonFit, { exposures: ['height'] })).toThrow(/exposures/);
    expect(() => attributableFractionOfFit(colon, colonFit, { exposures: [] })).toThrow(/exposures/);
    const clustered = { ...colon, cluster: colon.event };
    expect(() => attributableFractionOfFit(clustered, colonFit, { exposures: ['sex'] })).toThrow(/influence/);
    const influence = coxResiduals(colon, colonFit).dfbeta;
    const alone = { ...colon, cluster: colon.event.map(() => 1) };
    expect(attributableFractionOfFit(alone, colonFit, { exposures: ['sex'], influence }).robust).toBeNull();
    const short = { ...colon, covariates: { sex: colon.covariates.sex } };
    expect(() => attributableFractionOfFit(short, colonFit, { exposures: ['sex'] })).toThrow(/lack/);
  });
});

describe('attributableFraction laws', () => {
  const table = fc.record({
    cases: fc.array(fc.integer({ min: 1, max: 50 }), { minLength: 3, maxLength: 3 }),
    coefficients: fc.array(fc.double({ min: -1, max: 2, noNaN: true }), { minLength: 2, maxLength: 2 }),
    error: fc.double({ min: 0.05, max: 1, noNaN: true }),
  });

  it('the order of levels and rows, and a level split in two alike, change nothing', () => {
    fc.assert(
      fc.property(table, ({ cases, coefficients: [b = 0, c = 0], error }) => {
        const [none = 0, first = 0, second = 0] = cases;
        const v = error ** 2;
        const whole = attributableFraction({ cases, coefficients: [b, c], covariance: [v, v / 3, v / 3, 2 * v] });
        const turned = attributableFraction({
          cases: [none, second, first],
          coefficients: [c, b],
          covariance: [2 * v, v / 3, v / 3, v],
        });
        expect(turned.lower).toBeCloseTo(whole.lower ?? NaN, 10);
        // Rows of counts, through the other door.
        const rows = { event: cases, covariates: { level: { levels: ['a', 'b', 'c'], codes: [0, 1, 2] } } };
        const fit = {
          terms: ['level=b', 'level=c'],
          coefficients: Float64Array.of(b, c),
          covariance: Float64Array.of(v, v / 3, v / 3, 2 * v),
        };
        const ofFit = attributableFractionOfFit(rows, fit, { exposures: ['level'] });
        expect(ofFit.value).toBeCloseTo(whole.value ?? NaN, 10);
        expect(ofFit.upper).toBeCloseTo(whole.upper ?? NaN, 8);
        expect((whole.upper ?? NaN) <= 1 && (whole.lower ?? NaN) <= (whole.value ?? NaN)).toBe(true);
      }),
    );
  });
});
