import { describe, expect, it } from 'vitest';
import { proportionalHazardsTest } from '../../lib/statistics/proportional-hazards-test.ts';
import type { SurvivalData } from '../../lib/statistics/survival-data.ts';
import type { TimeTransform } from '../../lib/statistics/proportional-hazards-test-time.ts';
import { check, loadCase } from '../reference/reference.ts';
import { coxCases } from './cox-cases.ts';

const cases: [id: string, part: string][] = [
  ['cox-veteran', 'zph_efron'],
  ['cox-veteran-strata', 'zph'],
  ['cox-heart-timedependent', 'zph'],
  ['cox-nickel-lefttrunc', 'zph'],
  ['cox-ovarian', 'zph'],
];

describe('proportionalHazardsTest v cox.zph', () => {
  for (const [id, part] of cases) {
    const expected = loadCase(id).expected[part];
    const { data } = coxCases.find((candidate) => candidate.id === id) as { data: SurvivalData };
    for (const transform of Object.keys(expected) as TimeTransform[])
      it(`${id} ${transform}`, () => {
        const want = expected[transform];
        const got = proportionalHazardsTest(data, { transform });
        const about = { method: 'proportionalHazardsTest', source: `${id} ${transform}` };
        check(about, [...got.statistic, got.global.statistic], want.chisq, 1e-7);
        check(about, [...got.pValue, got.global.pValue], want.p, 1e-7);
        check(about, [...got.degreesOfFreedom, got.global.degreesOfFreedom], want.df, 0);
        check(about, [...got.approximation.statistic, got.approximation.global], want.gt1994_approx_chisq, 1e-7);
        const order = [...got.residuals.time.keys()].sort(
          (a, b) => (got.residuals.time[a] as number) - (got.residuals.time[b] as number),
        );
        if (data.strata) return;
        check(
          about,
          order.map((index) => got.residuals.time[index] as number),
          want.event_time,
          1e-12,
        );
        check(
          about,
          order.map((index) => got.residuals.transformedTime[index] as number),
          want.transformed_time,
          1e-9,
        );
      });
  }

  it('takes the levels of a category together', () => {
    const { data } = coxCases[0] as { data: SurvivalData };
    const { covariates, terms, statistic } = proportionalHazardsTest(data);
    expect(covariates.map(({ name, degreesOfFreedom }) => [name, degreesOfFreedom])).toEqual([
      ['trt', 1],
      ['celltype', 3],
      ['karno', 1],
      ['diagtime', 1],
      ['age', 1],
      ['prior', 1],
    ]);
    expect(covariates[0]?.statistic).toBeCloseTo(statistic[terms.indexOf('trt')] as number, 12);
    // R survival 3.5-3, cox.zph(coxph(Surv(time, status) ~ trt + celltype + karno + diagtime + age + prior, veteran)).
    expect(covariates[1]?.statistic).toBeCloseTo(15.2273639243526517, 8);
  });

  it('refuses the logarithm of an event at time zero', () => {
    const data = { exit: [0, 1, 2, 3], event: [1, 1, 1, 0], covariates: { x: [1, 0, 1, 0] } };
    expect(() => proportionalHazardsTest(data, { transform: 'log' })).toThrow(
      'transform: log needs every event after time zero',
    );
  });
});

describe('proportionalHazardsTest where little can be told', () => {
  it('counts as degrees of freedom only covariates that vary at more than one failure time', () => {
    // y differs among those at risk at 1 only, x at both failures.
    const data = {
      exit: [1, 2, 3, 4, 5, 6],
      event: [0, 1, 0, 1, 0, 0],
      covariates: { x: [1, 0, 1, 1, 0, 1], y: [0, 1, 2, 0, 0, 0] },
    };
    const test = proportionalHazardsTest({ ...data, covariates: { y: data.covariates.y } });
    expect([...test.degreesOfFreedom, test.global.degreesOfFreedom]).toEqual([0, 0]);
    expect([...test.statistic, ...test.pValue]).toEqual([0, 1]);
    expect(test.warnings).toMatchObject([{ kind: 'constant', term: 'y' }]);
    const both = proportionalHazardsTest({ ...data, covariates: { x: data.covariates.x } });
    expect([...both.degreesOfFreedom]).toEqual([1]);
    expect(both.warnings).toEqual([]);
  });
});
