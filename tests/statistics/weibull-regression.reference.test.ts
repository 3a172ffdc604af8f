import { describe, expect, it } from 'vitest';
import type { LogLifeName } from '../../lib/statistics/log-life-distribution.ts';
import { weibullRegression } from '../../lib/statistics/weibull-regression.ts';
import type { Covariates } from '../../lib/statistics/survival-data.ts';
import { check, loadCase, loadData, numbers } from '../reference/reference.ts';

const TOLERANCE = 1e-6;

interface Regression {
  readonly data: string;
  readonly exit: string;
  readonly event: string;
  readonly covariates: (data: ReturnType<typeof loadData>) => Covariates;
  readonly cluster?: string;
}

/** A text column with levels in sort order, as R takes them. */
function factor(values: readonly string[]) {
  const levels = [...new Set(values)].sort();
  return { levels, codes: values.map((value) => levels.indexOf(value)) };
}

const column =
  (...names: string[]) =>
  (data: ReturnType<typeof loadData>): Covariates =>
    Object.fromEntries(names.map((name) => [name, numbers(data, name)]));

const cases: Record<string, Regression> = {
  'aft-capacitor': { data: 'capacitor', exit: 'time', event: 'status', covariates: column('temperature', 'voltage') },
  'aft-imotor-arrhenius': {
    data: 'imotor',
    exit: 'time',
    event: 'status',
    covariates: (data) => ({ x: numbers(data, 'temp').map((celsius) => 11605 / (celsius + 273.15)) }),
  },
  'aft-veteran': {
    data: 'veteran',
    exit: 'time',
    event: 'status',
    covariates: (data) => ({
      trt: numbers(data, 'trt'),
      celltype: factor(data['celltype'] as string[]),
      karno: numbers(data, 'karno'),
    }),
  },
  'aft-rats-cluster': {
    data: 'rats',
    exit: 'time',
    event: 'status',
    covariates: (data) => ({ rx: numbers(data, 'rx'), sex: factor(data['sex'] as string[]) }),
    cluster: 'litter',
  },
  'aft-ovarian': { data: 'ovarian', exit: 'futime', event: 'fustat', covariates: column('ecog.ps', 'rx') },
  'aft-kidney-cluster': {
    data: 'kidney',
    exit: 'time',
    event: 'status',
    covariates: column('age', 'sex'),
    cluster: 'id',
  },
};

const pairs = Object.keys(cases).flatMap((id) =>
  Object.keys(loadCase(id).expected).map((distribution) => [id, distribution as LogLifeName] as const),
);

describe('weibullRegression against R survival 3.5-3 (survreg)', () => {
  it.each(pairs)('%s %s', (id, distribution) => {
    const setup = cases[id] as Regression;
    const data = loadData(setup.data);
    const want = loadCase(id).expected[distribution];
    const about = { method: 'weibullRegression', source: `${id} ${distribution}` };
    const fit = weibullRegression(
      {
        exit: numbers(data, setup.exit),
        event: numbers(data, setup.event),
        covariates: setup.covariates(data),
        ...(setup.cluster ? { cluster: data[setup.cluster] as Float64Array } : {}),
      },
      { distribution },
    );
    expect(fit.converged).toBe(true);
    expect(fit.terms.length).toBe(want.terms.length);
    const width = want.coef.length;
    check(about, fit.coefficients, want.coef, TOLERANCE);
    check(about, fit.spread.value, want.sigma, TOLERANCE);
    check(about, fit.standardErrors, want.se_coef_logsigma.slice(0, width), TOLERANCE);
    check(about, fit.covariance, want.vcov.flat(), TOLERANCE);
    check(about, fit.logLikelihood, want.loglik, TOLERANCE);
    check(about, fit.aic, want.aic, TOLERANCE);
    check(about, fit.tests.likelihoodRatio.statistic, want.lr_test, TOLERANCE);
    if (!want.robust_se) return;
    check(about, fit.robustStandardErrors ?? [], want.robust_se.slice(0, width), TOLERANCE);
    check(about, fit.robustCovariance ?? [], want.robust_vcov.flat(), TOLERANCE);
  });
});
