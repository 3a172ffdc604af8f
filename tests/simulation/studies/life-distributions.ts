import { fitLife, weibullRegression, type Estimate } from '../../../lib/statistics/index.ts';
import { drawFleet, FRAIL_FLEET, LATE_FLEET, PLAIN_FLEET, trueLifeAt, trueSurvival, type FleetPlan } from '../fleet.ts';
import { holds, type Study } from '../study.ts';
import { mixtureStudies } from './mixture.ts';

const robust = (estimate: Estimate) => ({ lower: estimate.robust?.lower, upper: estimate.robust?.upper });

const weibull = (setting: string, plan: FleetPlan): Study => ({
  method: 'fitLife',
  setting: `Weibull; ${setting}`,
  claims: {
    shape: 'covers',
    'shape, likelihood ratio': 'covers',
    scale: 'covers',
    'B10 life': 'covers',
    'survival at 160': 'covers',
  },
  play(random) {
    const fit = fitLife(drawFleet(plan, random), { distribution: 'weibull' });
    return {
      shape: holds(fit.parameters.shape, plan.shape),
      'shape, likelihood ratio': holds(fit.likelihoodRatio.shape(), plan.shape),
      scale: holds(fit.parameters.scale, plan.scale),
      'B10 life': holds(fit.lifeAt(0.1), trueLifeAt(plan, 0.1)),
      'survival at 160': holds(fit.survivalAt(160), trueSurvival(plan, 160)),
    };
  },
});

/** The robust error of the shape needs some hundreds of vehicles: with 120 its limits hold 92 %. */
const frailWeibull = (vehicles: number, claimForShape: 'covers' | 'labelled'): Study => ({
  method: 'fitLife',
  setting: `Weibull; late entry; wheel ends of ${vehicles} vehicles share their vehicle’s fate (tau 0.4)`,
  claims: {
    'robust shape': claimForShape,
    'robust scale': 'covers',
    'robust B10 life': 'covers',
    'model-based B10 life': 'falls short',
  },
  play(random) {
    const fleet = drawFleet({ ...FRAIL_FLEET, vehicles }, random);
    const fit = fitLife({ ...fleet, cluster: fleet.vehicle }, { distribution: 'weibull' });
    const life = fit.lifeAt(0.1);
    return {
      'robust shape': holds(robust(fit.parameters.shape), FRAIL_FLEET.shape),
      'robust scale': holds(robust(fit.parameters.scale), FRAIL_FLEET.scale),
      'robust B10 life': holds(robust(life), trueLifeAt(FRAIL_FLEET, 0.1)),
      'model-based B10 life': holds(life, trueLifeAt(FRAIL_FLEET, 0.1)),
    };
  },
});

const exponential: Study = {
  method: 'fitLife',
  setting: 'exponential; two in five enter late',
  claims: { 'mean life': 'covers', 'B10 life, likelihood ratio': 'covers' },
  play(random) {
    const plan = { ...LATE_FLEET, shape: 1 };
    const fit = fitLife(drawFleet(plan, random), { distribution: 'exponential' });
    return {
      'mean life': holds(fit.parameters.scale, plan.scale),
      'B10 life, likelihood ratio': holds(fit.likelihoodRatio.lifeAt(0.1), trueLifeAt(plan, 0.1)),
    };
  },
};

const [LOCATION, SPREAD] = [Math.log(200), 0.7];
const lognormal: Study = {
  method: 'fitLife',
  setting: 'lognormal; 300 lives, records end at 60 to 300, one in three enters late',
  claims: { location: 'covers', scale: 'covers', 'median life': 'covers' },
  play(random) {
    const rows: [number, number, number][] = [];
    while (rows.length < 300) {
      const [life, end] = [Math.exp(LOCATION + SPREAD * random.normal()), 60 + 240 * random.uniform()];
      const entry = random.uniform() < 1 / 3 ? 100 * random.uniform() : 0;
      if (Math.min(life, end) > entry) rows.push([Math.min(life, end), life <= end ? 1 : 0, entry]);
    }
    const [exit, event, entry] = [rows.map((row) => row[0]), rows.map((row) => row[1]), rows.map((row) => row[2])];
    const fit = fitLife({ exit, event, entry }, { distribution: 'lognormal' });
    return {
      location: holds(fit.parameters.location, LOCATION),
      scale: holds(fit.parameters.scale, SPREAD),
      'median life': holds(fit.lifeAt(0.5), Math.exp(LOCATION)),
    };
  },
};

const regression = (setting: string, plan: FleetPlan): Study => ({
  method: 'weibullRegression',
  setting,
  claims: { 'life ratio of the exposure': 'covers', shape: 'covers', 'test of no effect': 'rejects at most' },
  play(random) {
    const covariates = (fleet: ReturnType<typeof drawFleet>) => ({ ...fleet, covariates: { exposed: fleet.exposed } });
    const fit = weibullRegression(covariates(drawFleet(plan, random)));
    const none = weibullRegression(covariates(drawFleet({ ...plan, ratio: 1 }, random)));
    const truth = plan.ratio ** (-1 / plan.shape);
    return {
      'life ratio of the exposure': holds({ lower: fit.lower[1], upper: fit.upper[1] }, truth),
      shape: fit.shape ? holds(fit.shape, plan.shape) : null,
      'test of no effect': none.tests.likelihoodRatio.pValue < 0.05,
    };
  },
});

const frailRegression: Study = {
  method: 'weibullRegression',
  setting: 'late entry; exposure by vehicle, wheel ends share its fate (tau 0.4)',
  claims: {
    'robust life ratio': 'covers',
    'model-based life ratio': 'falls short',
    'robust test of no effect': 'rejects at most',
    'model-based test of no effect': 'rejects too often',
  },
  play(random) {
    const plan = { ...FRAIL_FLEET, ratio: 1.8, exposedBy: 'vehicle' as const };
    const fit = (fleet: ReturnType<typeof drawFleet>) =>
      weibullRegression({ ...fleet, cluster: fleet.vehicle, covariates: { exposed: fleet.exposed } });
    const some = fit(drawFleet(plan, random));
    const none = fit(drawFleet({ ...plan, ratio: 1 }, random));
    const truth = plan.ratio ** (-1 / plan.shape);
    return {
      'robust life ratio': holds({ lower: some.robustLower?.[1], upper: some.robustUpper?.[1] }, truth),
      'model-based life ratio': holds({ lower: some.lower[1], upper: some.upper[1] }, truth),
      'robust test of no effect': none.tests.robustWald ? none.tests.robustWald.pValue < 0.05 : null,
      'model-based test of no effect': none.tests.wald.pValue < 0.05,
    };
  },
};

const SLIGHT: FleetPlan = { ...LATE_FLEET, ratio: 1.8 };

export const lifeDistributionStudies: Study[] = [
  weibull('independent lives, records end at 60 to 300', PLAIN_FLEET),
  weibull('two in five enter late', LATE_FLEET),
  weibull('30 vehicles, some 35 failures', { ...LATE_FLEET, vehicles: 30 }),
  frailWeibull(120, 'labelled'),
  frailWeibull(300, 'covers'),
  exponential,
  lognormal,
  regression('two in five enter late, hazard ratio 1.8', SLIGHT),
  frailRegression,
  ...mixtureStudies,
];
