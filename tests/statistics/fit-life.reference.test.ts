import { describe, expect, it } from 'vitest';
import { fitLife } from '../../lib/statistics/fit-life.ts';
import type { LifeData } from '../../lib/statistics/life-rows.ts';
import { check, loadCase, loadData, numbers } from '../reference/reference.ts';

const TOLERANCE = 1e-6;

function exits(name: string, exit: string, event: string, entry?: string, keep?: [string, string | number]): LifeData {
  const data = loadData(name);
  const rows = [...numbers(data, exit).keys()].filter((row) => !keep || data[keep[0]]?.[row] === keep[1]);
  const pick = (column: string) => Float64Array.from(rows, (row) => numbers(data, column)[row] as number);
  return { exit: pick(exit), event: pick(event), ...(entry ? { entry: pick(entry) } : {}) };
}

function intervals(name: string, lower: string, upper: string): LifeData {
  const data = loadData(name);
  return {
    lower: numbers(data, lower).map((value) => (Number.isNaN(value) ? 0 : value)),
    upper: numbers(data, upper).map((value) => (Number.isNaN(value) ? Infinity : value)),
  };
}

function turbine(): LifeData {
  const data = loadData('turbine');
  const [hours, inspected, failed] = [numbers(data, 'hours'), numbers(data, 'inspected'), numbers(data, 'failed')];
  return {
    lower: [...hours.map(() => 0), ...hours],
    upper: [...hours, ...hours.map(() => Infinity)],
    weight: [...failed, ...inspected.map((count, row) => count - (failed[row] as number))],
  };
}

const cases: Record<string, () => LifeData> = {
  'par-genfan': () => exits('genfan', 'hours', 'status'),
  'par-aml-nonmaintained': () => exits('aml', 'time', 'status', undefined, ['x', 'Nonmaintained']),
  'par-veteran': () => exits('veteran', 'time', 'status'),
  'par-imotor-190': () => exits('imotor', 'time', 'status', undefined, ['temp', 190]),
  'par-ovarian': () => exits('ovarian', 'futime', 'fustat'),
  'par-nickel-lefttrunc': () => exits('nickel', 'ageout', 'lung', 'agein'),
  'par-simseals-lefttrunc': () => exits('sim_lt_seals', 'miles_k', 'failed', 'entry', ['group', 'A']),
  'par-turbine': turbine,
  'par-salinity': () => intervals('salinity', 'left', 'right'),
  'par-fluazinam': () => intervals('fluazinam', 'left', 'right'),
  'par-simvisits': () => intervals('sim_interval_visits', 'lo', 'hi'),
};

describe.each(Object.keys(cases))('fitLife against R survival 3.5-3 (survreg) or its own likelihood: %s', (id) => {
  const { expected } = loadCase(id);
  const data = (cases[id] as () => LifeData)();

  it.each(['weibull', 'lognormal', 'exponential'] as const)('%s', (distribution) => {
    const want = expected[distribution];
    const about = { method: 'fitLife', source: `${id} ${distribution}` };
    const fit = fitLife(data, { distribution });
    expect(fit.converged).toBe(true);
    check(about, fit.logLikelihood, want.loglik, TOLERANCE);
    check(about, fit.aic, want.aic, TOLERANCE);
    check(
      about,
      fit.working.values,
      [want.mu, ...(want.vcov_mu_logsigma.length > 1 ? [Math.log(want.sigma)] : [])],
      TOLERANCE,
    );
    check(about, fit.working.covariance ?? [], want.vcov_mu_logsigma.flat(), TOLERANCE);
    const lives = (want.b_life.p as number[]).map((fraction) => fit.lifeAt(fraction));
    check(
      about,
      lives.map((life) => life.value),
      want.b_life.life,
      TOLERANCE,
    );
    check(
      about,
      lives.map((life) => life.standardError / life.value),
      want.b_life.se_log_life,
      TOLERANCE,
    );
    check(
      about,
      lives.map((life) => life.lower),
      want.b_life.lower,
      TOLERANCE,
    );
    check(
      about,
      lives.map((life) => life.upper),
      want.b_life.upper,
      TOLERANCE,
    );
  });

  it('weibull shape and scale, lognormal location and scale, exponential mean', () => {
    const about = { method: 'fitLife', source: `${id} parameters` };
    const [w, n, e] = [expected.weibull, expected.lognormal, expected.exponential];
    const weibull = fitLife(data, { distribution: 'weibull' });
    const { shape, scale } = weibull.parameters;
    check(
      about,
      [shape.value, shape.standardError, shape.lower, shape.upper],
      [w.shape, w.se_shape, ...w.ci_shape_logscale],
      TOLERANCE,
    );
    check(
      about,
      [scale.value, scale.standardError, scale.lower, scale.upper],
      [w.scale, w.se_scale, ...w.ci_scale_logscale],
      TOLERANCE,
    );
    check(about, weibull.covariance ?? [], w.vcov_shape_scale.flat(), TOLERANCE);
    const normal = fitLife(data, { distribution: 'lognormal' }).parameters;
    check(about, [normal.location.value, normal.location.standardError], [n.mu, n.se_mu], TOLERANCE);
    check(
      about,
      [normal.scale.value, normal.scale.standardError, normal.scale.lower, normal.scale.upper],
      [n.sigma, n.se_sigma, ...n.ci_sigma_logscale],
      TOLERANCE,
    );
    const mean = fitLife(data, { distribution: 'exponential' }).parameters.scale;
    check(
      about,
      [mean.value, mean.standardError, mean.lower, mean.upper],
      [e.mean, e.se_mean, ...e.ci_mean_logscale],
      TOLERANCE,
    );
  });
});
