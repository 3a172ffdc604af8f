import { coxRegression } from '../../../lib/statistics/cox-regression.ts';
import { logRank } from '../../../lib/statistics/index.ts';
import { proportionalHazardsTest } from '../../../lib/statistics/proportional-hazards-test.ts';
import { drawFleet, FRAIL_FLEET, LATE_FLEET, PLAIN_FLEET, type Fleet, type FleetPlan } from '../fleet.ts';
import { holds, type Study } from '../study.ts';

const first = (lower: Float64Array | undefined, upper: Float64Array | undefined) => ({
  lower: lower?.[0],
  upper: upper?.[0],
});
const rejects = (test: { readonly pValue: number | null } | undefined) =>
  test && test.pValue !== null ? test.pValue < 0.05 : null;
/** Coded 0 and 1, also when one of them does not come up. */
const byExposure = (fleet: Fleet) => ({ ...fleet, group: { levels: ['without', 'with'], codes: fleet.exposed } });

const rankTests = (setting: string, plan: FleetPlan): Study => ({
  method: 'logRank',
  setting: `${setting}, no difference`,
  claims: {
    Mantel: 'rejects at most',
    'Peto–Peto': 'rejects at most',
    'stratified by four shops': 'rejects at most',
    'four groups': 'rejects at most',
    'trend over four groups': 'rejects at most',
  },
  play(random) {
    const fleet = drawFleet(plan, random);
    const shop = { levels: ['a', 'b', 'c', 'd'], codes: fleet.vehicle.map((vehicle) => vehicle % 4) };
    const four = logRank({ ...fleet, group: shop }, { scores: [0, 1, 2, 3] });
    return {
      Mantel: rejects(logRank(byExposure(fleet))),
      'Peto–Peto': rejects(logRank(byExposure(fleet), { weights: 'peto-peto' })),
      'stratified by four shops': rejects(logRank({ ...byExposure(fleet), strata: shop })),
      'four groups': rejects(four),
      'trend over four groups': rejects(four.trend),
    };
  },
});

const frailRankTest: Study = {
  method: 'logRank',
  setting: 'late entry; exposure by vehicle, wheel ends share its fate (tau 0.4), no difference',
  claims: {
    robust: 'rejects at most',
    'robust, Peto–Peto': 'rejects at most',
    'robust, four groups': 'rejects at most',
    'model-based': 'rejects too often',
  },
  play(random) {
    const fleet = drawFleet({ ...FRAIL_FLEET, exposedBy: 'vehicle' }, random);
    const data = { ...byExposure(fleet), cluster: fleet.vehicle };
    const shop = { levels: ['a', 'b', 'c', 'd'], codes: fleet.vehicle.map((vehicle) => vehicle % 4) };
    const test = logRank(data);
    return {
      robust: rejects(test.robust),
      'robust, Peto–Peto': rejects(logRank(data, { weights: 'peto-peto' }).robust),
      'robust, four groups': rejects(logRank({ ...data, group: shop }).robust),
      'model-based': rejects(test),
    };
  },
};

const withCovariates = (fleet: Fleet) => ({
  ...fleet,
  covariates: { exposed: fleet.exposed, age: fleet.vehicle.map((vehicle) => vehicle % 7) },
});

const cox = (setting: string, plan: FleetPlan): Study => ({
  method: 'coxRegression',
  setting,
  shortRun: 40,
  claims: {
    'hazard ratio, Efron': 'covers',
    'hazard ratio, Breslow': 'covers',
    'hazard ratio, profile limits': 'covers',
    'hazard ratio, stratified by shop': 'covers',
    'likelihood ratio test of no effect': 'rejects at most',
    'Wald test of no effect': 'rejects at most',
    'score test of no effect': 'rejects at most',
  },
  play(random) {
    const fleet = withCovariates(drawFleet(plan, random));
    const quick = { concordance: false } as const;
    const limits = (options: Parameters<typeof coxRegression>[1], strata?: Int32Array) => {
      const fit = coxRegression({ ...fleet, ...(strata ? { strata } : {}) }, { ...quick, ...options });
      return holds(first(fit.lower, fit.upper), plan.ratio);
    };
    const { tests } = coxRegression(withCovariates(drawFleet({ ...plan, ratio: 1 }, random)), quick);
    return {
      'hazard ratio, Efron': limits({}),
      'hazard ratio, Breslow': limits({ ties: 'breslow' }),
      'hazard ratio, profile limits': limits({ limits: 'profile' }),
      'hazard ratio, stratified by shop': limits(
        {},
        fleet.vehicle.map((vehicle) => vehicle % 4),
      ),
      'likelihood ratio test of no effect': rejects(tests.likelihoodRatio),
      'Wald test of no effect': rejects(tests.wald),
      'score test of no effect': rejects(tests.score),
    };
  },
});

const frailCox: Study = {
  method: 'coxRegression',
  setting: 'late entry; exposure by vehicle, wheel ends share its fate (tau 0.4), hazard ratio 1.8',
  claims: {
    robust: 'covers',
    'model-based': 'falls short',
    'robust Wald test of no effect': 'rejects at most',
    'robust score test of no effect': 'rejects at most',
    'model-based test of no effect': 'rejects too often',
  },
  play(random) {
    const plan: FleetPlan = { ...FRAIL_FLEET, ratio: 1.8, exposedBy: 'vehicle' };
    const fit = (fleet: Fleet) =>
      coxRegression(
        { ...fleet, cluster: fleet.vehicle, covariates: { exposed: fleet.exposed } },
        { concordance: false, robustScore: true },
      );
    const some = fit(drawFleet(plan, random));
    const { tests } = fit(drawFleet({ ...plan, ratio: 1 }, random));
    return {
      robust: holds(first(some.robustLower, some.robustUpper), plan.ratio),
      'model-based': holds(first(some.lower, some.upper), plan.ratio),
      'robust Wald test of no effect': rejects(tests.robustWald),
      'robust score test of no effect': rejects(tests.robustScore),
      'model-based test of no effect': rejects(tests.wald),
    };
  },
};

const fewFailures: Study = {
  method: 'coxRegression',
  setting: '12 vehicles, some 15 failures, hazard ratio 3',
  claims: { 'Firth, profile limits': 'covers', 'profile limits': 'covers', 'Wald limits': 'covers' },
  play(random) {
    const plan: FleetPlan = { ...PLAIN_FLEET, vehicles: 12, ratio: 3 };
    const fleet = drawFleet(plan, random);
    const data = { ...fleet, covariates: { exposed: fleet.exposed } };
    const fit = (options: Parameters<typeof coxRegression>[1]) => {
      const { lower, upper } = coxRegression(data, { concordance: false, ...options });
      return holds(first(lower, upper), plan.ratio);
    };
    return {
      'Firth, profile limits': fit({ firth: true }),
      'profile limits': fit({ limits: 'profile' }),
      'Wald limits': fit({}),
    };
  },
};

const proportional: Study = {
  method: 'proportionalHazardsTest',
  setting: 'late entry, hazard ratio 1.8 at all ages',
  claims: { 'on 1 − Kaplan–Meier': 'rejects at most', 'on log time': 'rejects at most', global: 'rejects at most' },
  play(random) {
    const fleet = withCovariates(drawFleet({ ...LATE_FLEET, ratio: 1.8 }, random));
    const test = proportionalHazardsTest(fleet);
    return {
      'on 1 − Kaplan–Meier': (test.pValue[0] as number) < 0.05,
      'on log time': (proportionalHazardsTest(fleet, { transform: 'log' }).pValue[0] as number) < 0.05,
      global: test.global.pValue < 0.05,
    };
  },
};

const frailProportional: Study = {
  method: 'proportionalHazardsTest',
  setting: 'late entry; exposure by vehicle, wheel ends share its fate (tau 0.4), hazard ratio 1.8 at all ages',
  claims: {
    'robust, on 1 − Kaplan–Meier': 'rejects at most',
    'robust, global': 'rejects at most',
    'model-based': 'rejects too often',
  },
  play(random) {
    const fleet = withCovariates(drawFleet({ ...FRAIL_FLEET, ratio: 1.8, exposedBy: 'vehicle' }, random));
    const { pValue, robust } = proportionalHazardsTest({ ...fleet, cluster: fleet.vehicle });
    return {
      'robust, on 1 − Kaplan–Meier': robust ? (robust.pValue[0] as number) < 0.05 : null,
      'robust, global': robust ? robust.global.pValue < 0.05 : null,
      'model-based': (pValue[0] as number) < 0.05,
    };
  },
};

export const comparisonStudies: Study[] = [
  rankTests('independent lives', PLAIN_FLEET),
  rankTests('two in five enter late', LATE_FLEET),
  frailRankTest,
  cox('independent lives, hazard ratio 1.8', { ...PLAIN_FLEET, ratio: 1.8 }),
  cox('two in five enter late, hazard ratio 1.8', { ...LATE_FLEET, ratio: 1.8 }),
  frailCox,
  fewFailures,
  proportional,
  frailProportional,
];
