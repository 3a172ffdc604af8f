import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coxRegression } from '../../lib/statistics/cox-regression.ts';
import { coxRiskSets } from '../../lib/statistics/cox-risk-sets.ts';
import { coxTimeSplit } from '../../lib/statistics/cox-time-split.ts';
import { covariateByPiece, splitTime } from '../../lib/statistics/split-time.ts';
import { check, loadData, numbers } from '../reference/reference.ts';

const colon = loadData('colon');
const colonLives = {
  exit: numbers(colon, 'time'),
  event: numbers(colon, 'status'),
  strata: numbers(colon, 'etype'),
  cluster: numbers(colon, 'id'),
};
const colonCovariates = { age: numbers(colon, 'age'), sex: numbers(colon, 'sex'), node4: numbers(colon, 'node4') };
const seals = loadData('sim_lt_seals');
const sealLives = {
  entry: numbers(seals, 'entry'),
  exit: numbers(seals, 'miles_k'),
  event: numbers(seals, 'failed'),
  weight: numbers(seals, 'weight'),
  covariates: {
    group: {
      levels: ['A', 'B', 'C'],
      codes: (seals['group'] as string[]).map((group) => 'ABC'.indexOf(group)),
    },
  },
};

describe('coxTimeSplit v R survival 3.5-3', () => {
  it('three pieces of veteran', () => {
    // survSplit(Surv(time, status) ~ ., veteran, cut = c(90, 180), episode = "g"); coxph(Surv(tstart, time, status) ~
    // trt + prior + karno:strata(g)): the example of the package's vignette on time-dependent covariates.
    const data = loadData('veteran');
    const [exit, event, trt, prior, karno] = ['time', 'status', 'trt', 'prior', 'karno'].map((name) =>
      numbers(data, name),
    );
    const split = splitTime(
      { exit: exit ?? [], event: event ?? [], covariates: { trt: trt ?? [], prior: prior ?? [], karno: karno ?? [] } },
      [90, 180],
    );
    const { karno: whole, ...others } = split.covariates as Record<string, Float64Array>;
    const pieces = covariateByPiece(whole ?? [], split, ['first', 'second', 'third']);
    const fit = coxRegression({ ...split, covariates: { ...others, ...pieces } });
    const about = { method: 'coxTimeSplit', source: 'R survSplit, veteran' };
    const coefficients = [
      -0.0110253840606574, -0.00610670604257335, -0.0487549541212535, 0.0080504343223622, -0.00834873639775267,
    ];
    const errors = [0.189062160067663, 0.0203549262766998, 0.0062217307822484, 0.0128227558054494, 0.014620398085524];
    check(about, fit.coefficients, coefficients, 1e-7);
    check(about, fit.standardErrors, errors, 1e-7);
  });

  it('node4 of colon before and after a year, strata and clusters', () => {
    // survSplit(Surv(time, status) ~ ., colon, cut = 365, episode = "g", start = "start"); coxph(Surv(start, time,
    // status) ~ age + sex + I(node4*(g==1)) + I(node4*(g==2)) + strata(etype), cluster = id).
    const options = { covariate: 'node4', cut: 365, concordance: false };
    const { terms, fit } = coxTimeSplit({ ...colonLives, covariates: colonCovariates }, options);
    const about = { method: 'coxTimeSplit', source: 'R survSplit, colon' };
    expect(fit.terms).toEqual(['age', 'sex', 'node4, early', 'node4, later']);
    const coefficients = [0.000964220129054505, -0.0142456165760274, 1.15815664619352, 0.795705666542736];
    const errors = [0.00280120773856216, 0.066033233917911, 0.115904517537562, 0.0855450339565842];
    const robust = [0.00392015847979017, 0.0904117639114209, 0.138609103394558, 0.110900317732657];
    check(about, fit.coefficients, coefficients, 1e-7);
    check(about, fit.standardErrors, errors, 1e-7);
    check(about, fit.robustStandardErrors ?? [], robust, 1e-7);
    check(about, fit.covariance[11] ?? NaN, 5.42973916635785e-5, 1e-7);
    check(about, fit.robustCovariance?.[11] ?? NaN, 0.00331986192573812, 1e-7);
    const [node] = terms;
    check(about, [node?.early.ratio ?? NaN, node?.later.ratio ?? NaN], coefficients.slice(2).map(Math.exp), 1e-7);
    // Worked from R's robust numbers: variance of the difference, and the normal 0.975 quantile.
    const difference = (coefficients[3] as number) - (coefficients[2] as number);
    const error = Math.sqrt((robust[2] as number) ** 2 + (robust[3] as number) ** 2 - 2 * 0.00331986192573812);
    const limits = [-1, 1].map((side) => Math.exp(difference + side * 1.959963984540054 * error));
    check(about, [node?.change.robustLower ?? NaN, node?.change.robustUpper ?? NaN], limits, 1e-7);
  });

  it('a category, late entry and weights: sim_lt_seals at 200', () => {
    // survSplit(Surv(entry, miles_k, failed) ~ ., s, cut = 200, episode = "g"); coxph(Surv(entry, miles_k, failed) ~
    // I(B*e) + I(C*e) + I(B*(1-e)) + I(C*(1-e)), weights = weight, robust = FALSE), e = (g == 1).
    const { terms, fit } = coxTimeSplit(sealLives, { covariate: 'group', cut: 200 });
    const about = { method: 'coxTimeSplit', source: 'R survSplit, sim_lt_seals' };
    expect(terms.map(({ term }) => term)).toEqual(['group=B', 'group=C']);
    const coefficients = [-0.84578023198648, -0.639723508827888, 0.560580454484548, 0.309806855844503];
    const errors = [0.197599963160213, 0.197268064893907, 0.562143750907888, 0.584577856996867];
    check(about, fit.coefficients, coefficients, 1e-7);
    check(about, fit.standardErrors, errors, 1e-7);
    check(about, fit.logLikelihood, -979.049690574283, 1e-9);
    check(about, terms[0]?.change.ratio ?? NaN, Math.exp(1.40636068647103), 1e-7);
    check(about, terms[0]?.pValue ?? NaN, 0.0182644607937308, 1e-7);
    expect(terms[0]?.change).not.toHaveProperty('robustLower');
  });
});

describe('coxTimeSplit by hand', () => {
  // Breslow, one event time a piece: the early score is zero where ratio = (2/4)/(1/5), the later where (1/2)/(2/4).
  const rows = (count: number, exit: number, event: number, x: number) =>
    Array.from({ length: count }, () => ({ exit, event, x }));
  const all = [
    ...[rows(2, 3, 1, 1), rows(1, 3, 1, 0), rows(1, 8, 1, 1), rows(2, 8, 1, 0)].flat(),
    ...[rows(1, 9, 0, 1), rows(2, 9, 0, 0)].flat(),
  ];
  const data = {
    exit: all.map(({ exit }) => exit),
    event: all.map(({ event }) => event),
    covariates: { x: all.map(({ x }) => x) },
  };

  it('each side is its own table of counts', () => {
    const [x] = coxTimeSplit(data, { covariate: 'x', cut: 5, ties: 'breslow' }).terms;
    expect(x?.early.ratio).toBeCloseTo(2.5, 10);
    expect(x?.later.ratio).toBeCloseTo(1, 10);
    expect(x?.change.ratio).toBeCloseTo(0.4, 10);
    // Information of one Breslow time with d events and share p of the risk exposed: d·p·(1 − p), p = exposed events / d.
    const error = Math.sqrt(1 / (3 * (2 / 3) * (1 / 3)) + 1 / (3 * (1 / 3) * (2 / 3)));
    expect(x?.change.lower).toBeCloseTo(0.4 * Math.exp(-1.959963984540054 * error), 10);
  });

  it('an event at the cut is early', () => {
    const [x] = coxTimeSplit(data, { covariate: 'x', cut: 3, ties: 'breslow' }).terms;
    expect(x?.early.ratio).toBeCloseTo(2.5, 10);
  });

  it('says null where a side holds nothing, and keeps infinity', () => {
    const [none] = coxTimeSplit(data, { covariate: 'x', cut: 8.5 }).terms;
    expect(none?.later).toEqual({ ratio: null, lower: null, upper: null });
    expect(none?.change.ratio).toBeNull();
    expect(none?.pValue).toBeNull();
    const event = data.event.map((value, row) => (data.covariates.x[row] === 1 && data.exit[row] === 8 ? 0 : value));
    const [spared] = coxTimeSplit({ ...data, event }, { covariate: 'x', cut: 5 }).terms;
    expect(spared?.later.ratio).toBe(0);
    expect(spared?.later.upper).toBeGreaterThan(0);
    expect(spared?.change.ratio).toBeNull();
  });

  it('refuses a covariate that is not there, and a cut given twice or never', () => {
    expect(() => coxTimeSplit(data, { covariate: 'y', cut: 5 })).toThrow(/covariate/);
    expect(() => coxTimeSplit(data, { covariate: 'x' })).toThrow(/cut/);
    expect(() => coxTimeSplit(splitTime(data, [5]), { covariate: 'x', cut: 5 })).toThrow(/already split/);
    expect(() => coxTimeSplit(splitTime(data, [2, 5]), { covariate: 'x' })).toThrow(/2 cuts/);
    expect(() => coxTimeSplit(data, { covariate: 'x', cut: 5, riskSets: coxRiskSets(data) })).toThrow(/riskSets/);
  });
});

describe('coxTimeSplit laws', () => {
  it('lives cut beforehand with shared risk sets give the same', () => {
    const split = splitTime(sealLives, [200]);
    const shared = coxTimeSplit(split, { covariate: 'group', riskSets: coxRiskSets(split) });
    expect(shared.terms).toEqual(coxTimeSplit(sealLives, { covariate: 'group', cut: 200 }).terms);
  });

  it('the unit of time and the order of rows change nothing', () => {
    const whole = coxTimeSplit(sealLives, { covariate: 'group', cut: 200 });
    fc.assert(
      fc.property(fc.constantFrom(1e-3, 1.609344, 1000), fc.integer({ min: 1, max: 50 }), (unit, step) => {
        const rows = sealLives.exit.length;
        const order = Array.from({ length: rows }, (_, row) => (row * (2 * step + 1)) % rows);
        fc.pre(new Set(order).size === rows);
        const take = (column: ArrayLike<number>) => order.map((row) => column[row] as number);
        const moved = {
          entry: take(sealLives.entry).map((value) => value * unit),
          exit: take(sealLives.exit).map((value) => value * unit),
          event: take(sealLives.event),
          weight: take(sealLives.weight),
          covariates: { group: { levels: ['A', 'B', 'C'], codes: take(sealLives.covariates.group.codes) } },
        };
        const again = coxTimeSplit(moved, { covariate: 'group', cut: 200 * unit });
        again.terms.forEach((term, index) => {
          expect(term.early.ratio).toBeCloseTo(whole.terms[index]?.early.ratio ?? NaN, 9);
          expect(term.change.upper).toBeCloseTo(whole.terms[index]?.change.upper ?? NaN, 7);
        });
      }),
      { numRuns: 20 },
    );
  });
});
