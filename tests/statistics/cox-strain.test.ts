import { describe, expect, it } from 'vitest';
import { coxRegression, createRandom, type CoxRegression } from '../../lib/statistics/index.ts';

const eight = { exit: [1, 2, 3, 4, 5, 6, 7, 8], event: [1, 1, 0, 1, 1, 0, 1, 1] };
const load = [3, 1, 4, 1, 5, 9, 2, 6];
const wet = [1, 0, 0, 1, 1, 0, 1, 0];

const noNaN = (fit: CoxRegression): void => {
  const { coefficients, standardErrors, covariance, lower, upper, ratio } = fit;
  for (const values of [coefficients, standardErrors, covariance, lower, upper, ratio])
    expect(values.some(Number.isNaN)).toBe(false);
};

describe('coxRegression says what it cannot do', () => {
  it('leaves out columns that say nothing of their own, and names them', () => {
    const fit = coxRegression({
      ...eight,
      covariates: { wet, double: wet.map((x) => 2 * x + 1), load, one: wet.map(() => 7) },
    });
    expect(fit.terms).toEqual(['wet', 'load']);
    expect(fit.warnings).toMatchObject([
      { kind: 'collinear', term: 'double' },
      { kind: 'constant', term: 'one' },
    ]);
    const slim = coxRegression({ ...eight, covariates: { wet, load } });
    expect([...fit.coefficients]).toEqual([...slim.coefficients]);
  });

  it('a unused level, and one event when only one life is at risk, leave nothing to estimate', () => {
    const position = { levels: ['steer', 'drive', 'lift'], codes: wet };
    const fit = coxRegression({ ...eight, covariates: { position } });
    expect(fit.terms).toEqual(['position=drive']);
    expect(fit.warnings).toMatchObject([{ kind: 'constant', term: 'position=lift' }]);
    const last = coxRegression({ exit: [1, 2, 3], event: [0, 0, 1], covariates: { x: [1, 0, 1] } });
    expect(last).toMatchObject({ terms: [], warnings: [{ kind: 'constant', term: 'x' }] });
    expect(last.concordance).toMatchObject({ value: null, standardError: null });
    noNaN(last);
  });

  it('reports that it did not converge', () => {
    const fit = coxRegression({ ...eight, covariates: { wet, load } }, { maxIterations: 1 });
    expect(fit.converged).toBe(false);
    expect(fit.warnings).toMatchObject([{ kind: 'not-converged', term: null }]);
  });

  it('names argument and row of what it refuses', () => {
    const covariates = { wet };
    const fit = (data: object, options = {}) => coxRegression({ ...eight, covariates, ...data }, options);
    expect(() => fit({ exit: [], event: [], covariates: { wet: [] } })).toThrow('exit: has no rows');
    expect(() => fit({ covariates: {} })).toThrow('covariates: are none');
    expect(() => fit({ event: wet.map(() => 0) })).toThrow('event: has no events');
    expect(() => fit({ event: [1, 1, 0, 2, 1, 0, 1, 1] })).toThrow('event[3]: is 2');
    expect(() => fit({ entry: [0, 0, 0, 4, 0, 0, 0, 0] })).toThrow('exit[3]: is 4, not after its entry 4');
    expect(() => fit({ covariates: { wet: [1, 0, NaN, 1, 1, 0, 1, 0] } })).toThrow('covariates.wet[2]');
    expect(() => fit({ covariates: { wet: [1] } })).toThrow('covariates.wet: has 1 rows');
    expect(() => fit({ weight: [1, 1, 1, 1, 1, 1, 1, -1] })).toThrow('weight[7]');
    expect(() => fit({}, { offset: [1] })).toThrow('offset: has 1 rows');
    expect(() => fit({}, { initial: [1, 2] })).toThrow('initial: has 2 values');
    expect(() => fit({}, { level: 1 })).toThrow('level');
  });
});

describe('coxRegression under strain', () => {
  it('all tied: alike in both groups, and not', () => {
    const exit = [2, 2, 2, 2, 2, 2];
    const x = [1, 1, 0, 0, 0, 1];
    for (const ties of ['efron', 'breslow'] as const) {
      const all = coxRegression({ exit, event: x.map(() => 1), covariates: { x } }, { ties });
      expect(all.coefficients[0]).toBeCloseTo(0, 12);
      expect(all.concordance?.value).toBeNull();
      noNaN(all);
      // All the exposed fail and no other: a likelihood without a top.
      const apart = coxRegression({ exit, event: x, covariates: { x } }, { ties });
      expect(apart.ratio[0]).toBe(Infinity);
      expect(apart.warnings).toMatchObject([{ kind: 'separation' }]);
      noNaN(apart);
    }
  });

  it.each([1 / 50, 50])('finds a hazard ratio of %d (4,000 lives), from any start', (ratio) => {
    const random = createRandom(5);
    const x = Float64Array.from({ length: 4000 }, () => (random.uniform() < 0.3 ? 1 : 0));
    const exit = x.map((exposed) => random.exponential() / (exposed ? ratio : 1));
    const event = exit.map(() => (random.uniform() < 0.8 ? 1 : 0));
    const fit = coxRegression({ exit, event, covariates: { x } });
    const error = fit.standardErrors[0] as number;
    expect(Math.abs((fit.coefficients[0] as number) - Math.log(ratio))).toBeLessThan(3 * error);
    for (const initial of [[-6], [6]]) {
      const other = coxRegression({ exit, event, covariates: { x } }, { initial });
      expect(other.converged).toBe(true);
      expect(other.coefficients[0]).toBeCloseTo(fit.coefficients[0] as number, 9);
    }
  });

  it.each([1e-6, 1e6])('covariates in units of %d, far from zero', (unit) => {
    const one = coxRegression({ ...eight, covariates: { load } });
    const fit = coxRegression({ ...eight, covariates: { load: load.map((x) => (x + 1000) * unit) } });
    expect((fit.coefficients[0] as number) * unit).toBeCloseTo(one.coefficients[0] as number, 9);
    expect((fit.standardErrors[0] as number) * unit).toBeCloseTo(one.standardErrors[0] as number, 9);
    expect(fit.warnings).toEqual([]);
  });

  it('a risk set that runs empty early leaves two stretches that know nothing of each other', () => {
    const early = { entry: [0, 0, 0], exit: [1, 2, 3], event: [1, 1, 1], x: [0, 1, 0] };
    const late = { entry: [5, 5, 6, 5, 7], exit: [7, 8, 9, 10, 11], event: [1, 1, 0, 1, 0], x: [1, 0, 1, 1, 0] };
    const join = (name: keyof typeof early) => [...early[name], ...late[name]];
    const data = { entry: join('entry'), exit: join('exit'), event: join('event'), covariates: { x: join('x') } };
    const strata = [...early.x.map(() => 0), ...late.x.map(() => 1)];
    const [one, other] = [coxRegression(data), coxRegression({ ...data, strata })];
    expect(one.coefficients[0]).toBeCloseTo(other.coefficients[0] as number, 12);
    expect(one.logLikelihood).toBeCloseTo(other.logLikelihood, 12);
  });

  it('risks that leave early and are a billion billion times the rest leave no rounding behind', () => {
    // e^40 at risk from 0 to 1 only, with entries and exits on both sides of it: the rest as if it had never been.
    const rest = {
      entry: [0, 2, 2, 3, 0, 2],
      exit: [4, 5, 6, 7, 8, 9],
      event: [1, 1, 0, 1, 1, 0],
      x: [1, 0, 1, 1, 0, 0],
    };
    const fit = (more: boolean) =>
      coxRegression(
        {
          entry: more ? [...rest.entry, 0] : rest.entry,
          exit: more ? [...rest.exit, 1] : rest.exit,
          event: more ? [...rest.event, 0] : rest.event,
          covariates: { x: more ? [...rest.x, 1] : rest.x },
        },
        { offset: [0, 0, 0, 0, 0, 0, ...(more ? [40] : [])] },
      );
    expect(fit(true).coefficients[0]).toBeCloseTo(fit(false).coefficients[0] as number, 12);
  });
});
