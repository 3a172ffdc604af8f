import { describe, expect, it } from 'vitest';
import { coxBaseline, type BaselineCurve } from '../../lib/statistics/cox-baseline.ts';
import { coxRegression } from '../../lib/statistics/cox-regression.ts';
import type { SurvivalData } from '../../lib/statistics/survival-data.ts';
import { check, loadCase } from '../reference/reference.ts';
import { coxCases } from './cox-cases.ts';

const dataOf = (id: string): SurvivalData =>
  (coxCases.find((candidate) => candidate.id === id) as { data: SurvivalData }).data;

/** The curve's value at each of the reference's times, which also include times of censoring. */
const step = ({ time, cumulativeHazard }: BaselineCurve, at: readonly number[]) =>
  at.map((wanted) => cumulativeHazard[time.findLastIndex((value) => value <= wanted)] ?? 0);

const cases: [id: string, part: string, ties: 'efron' | 'breslow', at: Record<string, number>][] = [
  ['cox-veteran', 'baseline_efron', 'efron', { trt: 1, 'celltype=squamous': 1, karno: 60, diagtime: 9, age: 58 }],
  ['cox-veteran', 'baseline_breslow', 'breslow', { trt: 1, 'celltype=squamous': 1, karno: 60, diagtime: 9, age: 58 }],
  ['cox-nickel-lefttrunc', 'baseline', 'efron', { exposure: Math.log(6), age1st: 25 }],
  ['cox-ovarian', 'baseline', 'efron', { age: 60, 'resid.ds': 1, rx: 1, 'ecog.ps': 1 }],
];

describe('coxBaseline', () => {
  for (const [id, part, ties, at] of cases)
    it(`${id} ${part} v R survival`, () => {
      const want = loadCase(id).expected[part];
      const data = dataOf(id);
      const fit = coxRegression(data, { ties });
      const about = { method: 'coxBaseline', source: `${id} ${part}` };
      const [zero] = coxBaseline(data, fit) as [BaselineCurve];
      check(about, step(zero, want.baseline.time), want.baseline.cumhaz_at_zero, 1e-7);
      const [curve] = coxBaseline(data, fit, { at, interval: 'log' }) as [BaselineCurve];
      check(about, curve.time, want.profile_curve.time, 1e-12);
      check(about, curve.survival, want.profile_curve.surv, 1e-7);
      check(about, curve.cumulativeHazard, want.profile_curve.cumhaz, 1e-7);
      check(about, curve.standardError, want.profile_curve.std_err_cumhaz, 1e-7);
      check(about, curve.lower, want.profile_curve.lower, 1e-7);
      check(about, curve.upper, want.profile_curve.upper, 1e-7);
    });

  it('without covariates in the prediction is Nelson–Aalen, stratum by stratum', () => {
    // Two strata of three lives: 1/3 + 1/2 at times 1 and 2, and 1/3 at time 3.
    const data = {
      exit: [1, 2, 4, 3, 5, 6],
      event: [1, 1, 0, 1, 0, 0],
      strata: ['a', 'a', 'a', 'b', 'b', 'b'],
      covariates: { x: [1, 0, 1, 0, 1, 1] },
    };
    const curves = coxBaseline(data, coxRegression(data, { maxIterations: 0 }), { without: ['x'] });
    expect(curves.map(({ stratum }) => stratum)).toEqual(['a', 'b']);
    expect([...(curves[0] as BaselineCurve).cumulativeHazard]).toEqual([1 / 3, 1 / 3 + 1 / 2]);
    expect([...(curves[0] as BaselineCurve).atRisk]).toEqual([3, 2]);
    expect([...(curves[1] as BaselineCurve).cumulativeHazard]).toEqual([1 / 3]);
    expect((curves[0] as BaselineCurve).standardError[1]).toBeCloseTo(Math.sqrt(1 / 9 + 1 / 4), 12);
  });

  it('names a covariate or term that is not there', () => {
    const data = { exit: [1, 2, 3, 4], event: [1, 1, 1, 0], covariates: { x: [1, 0, 1, 0] } };
    const fit = coxRegression(data);
    expect(() => coxBaseline(data, fit, { without: ['y'] })).toThrow('without: names y, which is no covariate');
    expect(() => coxBaseline(data, fit, { at: { y: 1 } })).toThrow('at: names y, which is no term');
    expect(() => coxBaseline({ ...data, covariates: { z: [1, 0, 1, 0] } }, fit)).toThrow(
      'fit: has the term x, which the data lack',
    );
  });
});
