import { describe, expect, it } from 'vitest';
import {
  poissonRegression,
  splitTime,
  type CountData,
  type Covariates,
  type PoissonRegression,
} from '../../lib/statistics/index.ts';
import { cholesky, choleskyFailed, invertCholesky } from '../../lib/statistics/numeric/cholesky.ts';
import { check, loadCase, loadData, numbers } from '../reference/reference.ts';

const TOLERANCE = 1e-6;

type Data = ReturnType<typeof loadData>;

/** A column as a category with levels in sort order, as R takes them. */
function factor(data: Data, column: string) {
  const values = Array.from(data[column] as ArrayLike<string | number>, String);
  const levels = [...new Set(values)].sort();
  return { levels, codes: values.map((value) => levels.indexOf(value)) };
}

const factors = (data: Data, ...columns: string[]): Covariates =>
  Object.fromEntries(columns.map((column) => [column, factor(data, column)]));

const columns = (data: Data, ...names: string[]): Covariates =>
  Object.fromEntries(names.map((name) => [name, numbers(data, name)]));

function ships(): CountData {
  const data = loadData('ships');
  const covariates = factors(data, 'type', 'year', 'period');
  return { events: numbers(data, 'incidents'), exposure: numbers(data, 'service'), covariates };
}

function fleet(): CountData {
  const data = loadData('sim_nb_fleet');
  const covariates = columns(data, 'oil', 'heavy');
  return { events: numbers(data, 'failures'), exposure: numbers(data, 'miles_m'), covariates };
}

function quine(): CountData {
  const data = loadData('quine');
  return { events: numbers(data, 'Days'), covariates: factors(data, 'Sex', 'Age', 'Eth', 'Lrn') };
}

/** Seizures over four visits of each subject. */
function epil(): CountData {
  const data = loadData('epil');
  const subject = numbers(data, 'subject');
  const first = [...new Set(subject)].map((id) => subject.indexOf(id));
  const seizures = numbers(data, 'y');
  const total = (row: number) => seizures.filter((_, other) => subject[other] === subject[row]).reduce((a, b) => a + b);
  const treated = data['trt'] as string[];
  return {
    events: first.map(total),
    covariates: {
      treated: first.map((row) => (treated[row] === 'progabide' ? 1 : 0)),
      logBase: first.map((row) => Math.log(numbers(data, 'base')[row] as number)),
    },
  };
}

function vans(trend: boolean): CountData {
  const data = loadData('vans');
  const years = numbers(data, 'month').map((month) => month / 12);
  const covariates = { ...columns(data, 'law'), ...(trend ? { years } : {}) };
  return { events: numbers(data, 'vans'), exposure: numbers(data, 'kms'), covariates };
}

/** Parts of a case that one kind of fit has in common with another. */
function checkCommon(id: string, fit: PoissonRegression, want: any): void {
  const about = { method: `poissonRegression (${fit.family})`, source: `${id}: ${loadCase(id).source}` };
  expect(fit.converged).toBe(true);
  expect(fit.warnings).toEqual([]);
  expect(fit.terms.length).toBe(want.coef.length);
  check(about, fit.coefficients, want.coef, TOLERANCE);
  check(about, fit.standardErrors, want.se, TOLERANCE);
  check(about, fit.covariance, want.vcov.flat(), TOLERANCE);
  check(about, fit.deviance, want.deviance, TOLERANCE);
  check(about, fit.nullDeviance, want.null_deviance, TOLERANCE);
  check(about, fit.degreesOfFreedom, want.df_residual, 0);
  check(about, fit.pearson, want.pearson_chisq, TOLERANCE);
  check(about, fit.logLikelihood, want.loglik, TOLERANCE);
  check(about, fit.aic, want.aic, TOLERANCE);
}

const CASES = [
  ['glm-ships-poisson', 'poisson', ships, (expected: any) => expected],
  ['rate-change-vans', 'poisson', () => vans(false), (expected: any) => expected.before_after],
  ['rate-change-vans', 'poisson', () => vans(true), (expected: any) => expected.with_trend],
  ['glm-simfleet', 'poisson', fleet, (expected: any) => expected.poisson],
  ['glm-simfleet', 'negative-binomial', fleet, (expected: any) => expected.negbin],
  ['glm-quine', 'negative-binomial', quine, (expected: any) => expected.negbin],
  ['glm-epil', 'negative-binomial', epil, (expected: any) => expected.negbin],
] as const;

describe('poissonRegression against R 4.2.2 glm and MASS 7.3-58.2 glm.nb', () => {
  it.each(CASES)('%s, %s', (id, family, read, partOf) => {
    const data = read();
    const fit = poissonRegression(data, { family });
    const { expected, source } = loadCase(id);
    const want = partOf(expected);
    checkCommon(id, fit, want);
    const about = { method: `poissonRegression (${family})`, source: `${id}: ${source}` };
    check(about, fit.expected(data).slice(0, 5), want.fitted_first5, TOLERANCE);
    if (family !== 'negative-binomial') return;
    check(about, fit.theta?.value as number, want.theta, TOLERANCE);
    const error = fit.theta?.standardError as number;
    // The error that glm.nb reports is that of the step before its last, so that it is good to some 1e-5 only.
    check(about, error, want.theta_se, 5e-5);
    // The same from the joint information of the pack: the curvature by log θ alone.
    const joint = expected.negbin_joint.vcov_beta_logtheta;
    const factor = cholesky(Float64Array.from(joint.flat()), joint.length);
    if (choleskyFailed(factor)) throw new Error('the pack has no covariance');
    check(about, error, want.theta / Math.sqrt(invertCholesky(factor).at(-1) as number), TOLERANCE);
  });

  const joint = CASES.filter(([, family]) => family === 'negative-binomial');
  it.each(joint)('%s, %s, errors from the observed information of all parameters', (id, family, read) => {
    const fit = poissonRegression(read(), { family, information: 'observed' });
    const { expected, source } = loadCase(id);
    const want = expected.negbin_joint;
    const about = { method: `poissonRegression (${family}, observed information)`, source: `${id}: ${source}` };
    const width = want.coef.length;
    check(about, fit.coefficients, want.coef, TOLERANCE);
    check(about, fit.logLikelihood, want.loglik, TOLERANCE);
    check(about, fit.standardErrors, want.se_joint, TOLERANCE);
    const block = want.vcov_beta_logtheta.slice(0, width).flatMap((row: number[]) => row.slice(0, width));
    check(about, fit.covariance, block, TOLERANCE);
    const { value, standardError } = fit.theta as NonNullable<typeof fit.theta>;
    check(about, value, want.theta[''], TOLERANCE);
    check(about, standardError / value, want.se_log_theta, TOLERANCE);
  });

  it('quasi: the errors of glm-ships-poisson times √(Pearson χ² / degrees of freedom)', () => {
    const fit = poissonRegression(ships(), { family: 'quasi' });
    const { expected, source } = loadCase('glm-ships-poisson');
    const about = { method: 'poissonRegression (quasi)', source: `glm-ships-poisson: ${source}` };
    const dispersion = expected.pearson_chisq / expected.df_residual;
    check(about, fit.dispersion as number, dispersion, TOLERANCE);
    const wider = (values: number[], factor: number) => values.map((value) => value * factor);
    check(about, fit.standardErrors, wider(expected.se, Math.sqrt(dispersion)), TOLERANCE);
    check(about, fit.covariance, wider(expected.vcov.flat(), dispersion), TOLERANCE);
  });

  it('quasi: the dispersion of rate-change-vans', () => {
    const { expected, source } = loadCase('rate-change-vans');
    const about = { method: 'poissonRegression (quasi)', source: `rate-change-vans: ${source}` };
    const fit = poissonRegression(vans(true), { family: 'quasi' });
    check(about, fit.dispersion as number, expected.quasi_dispersion, TOLERANCE);
  });
});

describe('poissonRegression of lives cut at ages: piecewise exponential', () => {
  const veteran = loadData('veteran');
  const seals = loadData('sim_lt_seals');
  it.each([
    ['pwe-veteran', { exit: numbers(veteran, 'time'), event: numbers(veteran, 'status') }],
    [
      'pwe-simseals',
      { exit: numbers(seals, 'miles_k'), event: numbers(seals, 'failed'), entry: numbers(seals, 'entry') },
    ],
  ])('%s', (id, lives) => {
    const { expected: want, source } = loadCase(id);
    const about = { method: 'poissonRegression (piecewise exponential)', source: `${id}: ${source}` };
    const pieces = splitTime(lives, want.breaks.slice(1, -1));
    const levels = want.breaks.slice(0, -1).map((from: number) => `from ${from}`);
    const sums = (values: ArrayLike<number>) => {
      const totals = new Float64Array(levels.length);
      pieces.piece.forEach((piece, row) => (totals[piece] = (totals[piece] as number) + (values[row] as number)));
      return totals;
    };
    check(about, sums(pieces.event), want.events, 0);
    check(about, sums(pieces.exit.map((exit, row) => exit - (pieces.entry[row] as number))), want.exposure, 1e-12);
    // Each piece in turn as the reference, whose rate is then the intercept.
    levels.forEach((_level: string, reference: number) => {
      const order = [reference, ...levels.keys()].filter((piece, at) => at === 0 || piece !== reference);
      const codes = pieces.piece.map((piece) => order.indexOf(piece));
      const age = { levels: order.map((piece) => levels[piece] as string), codes };
      const fit = poissonRegression({ ...pieces, covariates: { age } });
      check(about, fit.ratio[0] as number, want.rate[reference], TOLERANCE);
      check(about, fit.standardErrors[0] as number, want.se_log_rate[reference], TOLERANCE);
      check(about, (fit.ratio[0] as number) * (fit.standardErrors[0] as number), want.se_rate[reference], TOLERANCE);
      // The likelihood of the lives: that of the counts less Σ log exposure over the events.
      const logs = pieces.exit.map((exit, row) => Math.log(exit - (pieces.entry[row] as number)));
      const shift = logs.reduce((sum, log, row) => sum + log * (pieces.event[row] as number), 0);
      check(about, fit.logLikelihood - shift, want.loglik, TOLERANCE);
      check(about, fit.nullLogLikelihood - shift, want.loglik_constant, TOLERANCE);
      check(about, fit.tests.likelihoodRatio.statistic, want.lr_test, TOLERANCE);
      check(about, fit.tests.likelihoodRatio.degreesOfFreedom, want.df, 0);
      check(about, fit.tests.likelihoodRatio.pValue, want.p, TOLERANCE);
    });
  });
});
