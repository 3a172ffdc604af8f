import { describe, expect, it } from 'vitest';
import { logRank, StatisticsError, type SurvivalData } from '../../lib/statistics/index.ts';
import { check, loadCase, loadData, numbers } from '../reference/reference.ts';

type Columns = Record<string, Float64Array | string[]>;

const columns = (data: Columns, exit: string, event: string, rest: Record<string, string>): SurvivalData => ({
  exit: numbers(data, exit),
  event: numbers(data, event),
  ...Object.fromEntries(Object.entries(rest).map(([as, column]) => [as, data[column]])),
});

const where = (data: Columns, column: string, value: number): Columns => {
  const keep = [...numbers(data, column)].map((cell) => cell === value);
  return Object.fromEntries(
    Object.entries(data).map(([name, cells]) => [
      name,
      cells instanceof Float64Array ? cells.filter((_, row) => keep[row]) : cells.filter((_, row) => keep[row]),
    ]),
  );
};

const CASES: [id: string, data: SurvivalData][] = [
  ['rank-aml', columns(loadData('aml'), 'time', 'status', { group: 'x' })],
  ['rank-veteran-4', columns(loadData('veteran'), 'time', 'status', { group: 'celltype' })],
  ['rank-veteran-stratified', columns(loadData('veteran'), 'time', 'status', { group: 'trt', strata: 'celltype' })],
  [
    'rank-colon-stratified',
    columns(where(loadData('colon'), 'etype', 1), 'time', 'status', { group: 'rx', strata: 'node4' }),
  ],
  ['rank-imotor-trend', columns(loadData('imotor'), 'time', 'status', { group: 'temp' })],
  ['rank-nickel-lefttrunc', columns(loadData('nickel'), 'ageout', 'lung', { entry: 'agein', group: 'expgrp' })],
  ['rank-ovarian', columns(loadData('ovarian'), 'futime', 'fustat', { group: 'rx' })],
  ['rank-capacitor-trend', columns(loadData('capacitor'), 'time', 'status', { group: 'voltage' })],
];

describe('logRank against R survival 3.5-3 survdiff and, with late entry, the exact Cox score test', () => {
  it.each(CASES)('%s', (id, data) => {
    const { expected, source } = loadCase(id);
    const about = { method: 'logRank', source: `${id}: ${source}` };
    for (const [weights, key] of [
      ['mantel', 'logrank'],
      ['peto-peto', 'peto_peto_rho1'],
    ] as const) {
      const want = expected[key];
      const got = logRank(data, { weights, ...(want.trend ? { scores: want.trend.scores } : {}) });
      // The reference lists its groups in its own order.
      const place = want.groups.map((group: string) => got.groups.indexOf(group));
      const along = (values: Float64Array) => place.map((k: number) => values[k]);
      check(about, along(got.lives), want.n, 1e-12);
      check(about, along(got.observed), want.observed, 1e-8);
      check(about, along(got.expected), want.expected, 1e-8);
      want.variance.forEach((row: number[], k: number) => {
        const base = place[k] * got.groups.length;
        check(about, along(got.variance.subarray(base, base + got.groups.length)), row, 1e-8);
      });
      check(about, got.statistic as number, want.chisq, 1e-8);
      expect(got.degreesOfFreedom).toBe(want.df);
      check(about, got.pValue as number, want.p, 1e-8);
      if (!want.trend) continue;
      check(about, got.trend?.z as number, want.trend.z, 1e-8);
      check(about, got.trend?.statistic as number, want.trend.chisq, 1e-8);
      check(about, got.trend?.pValue as number, want.trend.p, 1e-8);
    }
  });
});

/**
 * R 4.2.2, survival 3.5-3: coxph(<formula>, ties = "breslow", cluster = <cluster>,
 * control = coxph.control(iter.max = 0))$rscore, the robust score test at no effect.
 */
describe('the robust log-rank test against the robust Cox score test of R survival 3.5-3', () => {
  const nickel = loadData('nickel');
  const decade = numbers(nickel, 'dob').map((born) => Math.floor(born / 2));
  const cgd = loadCase('mcf-cgd-twogroup').expected.lwyy.robust_score_chisq[0][0] as number;
  it.each<[string, SurvivalData, number]>([
    [
      'rats, treatment, clusters of litters',
      columns(loadData('rats'), 'time', 'status', { group: 'rx', cluster: 'litter' }),
      5.8777309304238328,
    ],
    [
      'rats, stratified by sex',
      columns(loadData('rats'), 'time', 'status', { group: 'rx', cluster: 'litter', strata: 'sex' }),
      6.392455607133126,
    ],
    [
      'kidney, sex, pairs',
      columns(loadData('kidney'), 'time', 'status', { group: 'sex', cluster: 'id' }),
      3.1996890394890789,
    ],
    [
      'nickel, exposure group, late entry, clusters floor(dob / 2)',
      { ...columns(nickel, 'ageout', 'lung', { entry: 'agein', group: 'expgrp' }), cluster: decade },
      11.167877517953482,
    ],
    [
      'colon, arm, stratified by event type, clusters of patients',
      columns(loadData('colon'), 'time', 'status', { group: 'rx', strata: 'etype', cluster: 'id' }),
      19.061256676270723,
    ],
    [
      'veteran, fractional weights, rows as clusters',
      columns(loadData('veteran'), 'time', 'status', { group: 'celltype', weight: 'w' }),
      33.883856643666931,
    ],
    [
      'cgd, recurrent rows of a patient',
      columns(loadData('cgd'), 'tstop', 'status', { entry: 'tstart', group: 'treat', cluster: 'id' }),
      cgd,
    ],
  ])('%s', (source, data, statistic) => {
    const got = logRank(data);
    check({ method: 'logRank robust', source }, got.robust?.statistic as number, statistic, 1e-8);
    expect(got.robust?.degreesOfFreedom).toBe(new Set(got.groups).size - 1);
  });
});

describe('logRank by hand', () => {
  // At 1: a and b each lose one of 2 + 2; at 2: b loses one of 1 + 1 (a censored there); at 3: the last of b.
  const data = { exit: [1, 2, 1, 2, 3], event: [1, 0, 1, 1, 1], group: ['a', 'a', 'b', 'b', 'b'] };

  it('works ties, a censoring tied with an event and a group that runs out', () => {
    const got = logRank(data);
    // Shares of a at risk: 2/5 at 1 (two events), 1/3 at 2, 0 at 3.
    const expectedA = (2 * 2) / 5 + 1 / 3;
    const variance = (2 * 3 * 2 * 3) / (25 * 4) + (1 / 3) * (2 / 3);
    expect([...got.observed]).toEqual([1, 3]);
    expect(got.expected[0]).toBeCloseTo(expectedA, 14);
    expect(got.expected[1]).toBeCloseTo(4 - expectedA, 14);
    expect(got.statistic).toBeCloseTo((1 - expectedA) ** 2 / variance, 13);
    expect(got.degreesOfFreedom).toBe(1);
  });

  it('weighs by the pooled survival just before: 1 at the first time, 3/5 at the second', () => {
    const got = logRank(data, { weights: 'peto-peto' });
    expect(got.observed[1]).toBeCloseTo(1 + 3 / 5 + (3 / 5) * (2 / 3), 14);
    expect(got.expected[0]).toBeCloseTo(4 / 5 + (3 / 5) * (1 / 3), 14);
  });

  it('works the robust variance of two clusters from the scores of their rows', () => {
    const got = logRank({ ...data, cluster: [1, 2, 1, 2, 3] });
    // Score on group a: at 1 (1{a} − 2/5)(dN − 2/5), at 2 (1{a} − 1/3)(dN − 1/3), at 3 (1{a} − 0)(dN − 1).
    const a1 = (3 / 5) * (3 / 5);
    const a2 = (3 / 5) * (-2 / 5) + (2 / 3) * (-1 / 3);
    const b1 = (-2 / 5) * (3 / 5);
    const b2 = (-2 / 5) * (-2 / 5) + (-1 / 3) * (2 / 3);
    const b3 = (-2 / 5) * (-2 / 5) + (-1 / 3) * (-1 / 3);
    const variance = (a1 + b1) ** 2 + (a2 + b2) ** 2 + b3 ** 2;
    expect(got.robust?.variance[0]).toBeCloseTo(variance, 14);
    expect(got.robust).toMatchObject({ clusters: 3, degreesOfFreedom: 1 });
  });

  it('takes whole weights as repeats and strata one by one', () => {
    const twice = logRank({ ...data, weight: [2, 2, 2, 2, 2] });
    const repeated = {
      exit: [...data.exit, ...data.exit],
      event: [...data.event, ...data.event],
      group: [...data.group, ...data.group],
    };
    expect(twice.statistic).toBeCloseTo(logRank(repeated).statistic as number, 12);
    const stratified = logRank({ ...repeated, strata: [...data.exit.map(() => 'x'), ...data.exit.map(() => 'y')] });
    expect(stratified.statistic).toBeCloseTo(2 * (logRank(data).statistic as number), 12);
  });
});

describe('logRank on degenerate input', () => {
  it.each<[string, SurvivalData, string]>([
    ['no rows', { exit: [], event: [], group: [] }, 'no events'],
    ['no events', { exit: [1, 2], event: [0, 0], group: ['a', 'b'] }, 'no events'],
    ['one group', { exit: [1, 2], event: [1, 1], group: ['a', 'a'] }, 'no event while more than one group was at risk'],
    [
      'groups never at risk together',
      { entry: [0, 0, 5, 5], exit: [1, 2, 6, 7], event: [1, 1, 1, 1], group: ['a', 'a', 'b', 'b'] },
      'no event while more than one group was at risk',
    ],
  ])('%s: a null statistic with the reason', (_, data, reason) => {
    expect(logRank(data)).toMatchObject({ statistic: null, degreesOfFreedom: 0, pValue: null, reason });
  });

  it('counts as degrees of freedom only comparisons the data make', () => {
    // a meets b, c meets d, but the pairs never overlap.
    const got = logRank({
      entry: [0, 0, 0, 0, 9, 9, 9, 9],
      exit: [1, 2, 2, 3, 11, 12, 12, 13],
      event: [1, 1, 1, 0, 1, 1, 1, 0],
      group: ['a', 'b', 'a', 'b', 'c', 'd', 'c', 'd'],
    });
    expect(got.degreesOfFreedom).toBe(2);
  });

  it('gives no robust test from too few clusters, and no model-based one from fractional weights', () => {
    const data = { exit: [1, 2, 3, 4], event: [1, 1, 1, 1], group: ['a', 'b', 'c', 'a'] };
    expect(logRank({ ...data, cluster: [1, 1, 2, 2] }).robust).toMatchObject({ statistic: null, clusters: 2 });
    const weighted = logRank({ ...data, weight: [0.5, 1, 2, 1.5] });
    expect(weighted).toMatchObject({ statistic: null, pValue: null });
    expect(weighted.robust?.statistic).toBeGreaterThan(0);
  });

  it.each<[string, () => unknown]>([
    ['group', () => logRank({ exit: [1], event: [1] })],
    ['scores', () => logRank({ exit: [1, 2], event: [1, 1], group: ['a', 'b'] }, { scores: [1] })],
    ['exit', () => logRank({ exit: [1, 2], entry: [0, 3], event: [1, 1], group: ['a', 'b'] })],
    ['strata', () => logRank({ exit: [1, 2], event: [1, 1], group: ['a', 'b'], strata: ['x'] })],
  ])('refuses a bad %s', (argument, call) => {
    expect(call).toThrow(StatisticsError);
    expect(call).toThrow(argument);
  });
});
