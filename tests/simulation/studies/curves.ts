import {
  kaplanMeier,
  quantile,
  restrictedMean,
  restrictedMeanDifference,
  survivalAt,
  type SurvivalCurve,
} from '../../../lib/statistics/index.ts';
import {
  drawFleet,
  FRAIL_FLEET,
  LATE_FLEET,
  PLAIN_FLEET,
  trueLifeAt,
  trueRestrictedMean,
  trueSurvival,
  type Fleet,
  type FleetPlan,
} from '../fleet.ts';
import { holds, type Study } from '../study.ts';

const [EARLY, LATER] = [80, 160];
const robust = (point: { robustLower?: number | null; robustUpper?: number | null }) => ({
  lower: point.robustLower,
  upper: point.robustUpper,
});
const curveOf = (fleet: Fleet, options?: Parameters<typeof kaplanMeier>[1]): SurvivalCurve =>
  kaplanMeier(fleet, options)[0] as SurvivalCurve;

function modelLimits(setting: string, plan: FleetPlan): Study[] {
  return [
    {
      method: 'kaplanMeier',
      setting,
      claims: {
        'log-log at 80': 'covers',
        'log-log at 160': 'covers',
        'log at 160': 'covers',
        'plain at 160': 'covers',
      },
      play(random) {
        const fleet = drawFleet(plan, random);
        const at = (age: number, interval: 'log-log' | 'log' | 'plain') =>
          holds(survivalAt(curveOf(fleet, { interval }), age), trueSurvival(plan, age));
        return {
          'log-log at 80': at(EARLY, 'log-log'),
          'log-log at 160': at(LATER, 'log-log'),
          'log at 160': at(LATER, 'log'),
          'plain at 160': at(LATER, 'plain'),
        };
      },
    },
    {
      method: 'quantile',
      setting,
      claims: { 'B10 life': 'covers', 'B25 life': 'covers' },
      play(random) {
        const curve = curveOf(drawFleet(plan, random));
        return {
          'B10 life': holds(quantile(curve, 0.1), trueLifeAt(plan, 0.1)),
          'B25 life': holds(quantile(curve, 0.25), trueLifeAt(plan, 0.25)),
        };
      },
    },
    {
      method: 'restrictedMean',
      setting,
      claims: { 'to 160': 'covers', 'difference of two groups': 'covers' },
      play(random) {
        const two = { ...plan, ratio: 1.5 };
        const fleet = drawFleet(two, random);
        const [without, having] = kaplanMeier({ ...fleet, group: fleet.exposed }) as [SurvivalCurve, SurvivalCurve];
        const truth = trueRestrictedMean(two, LATER, true) - trueRestrictedMean(two, LATER);
        return {
          'to 160': holds(restrictedMean(without, LATER), trueRestrictedMean(two, LATER)),
          'difference of two groups': holds(restrictedMeanDifference(having, without, LATER), truth),
        };
      },
    },
  ];
}

const plan = { ...FRAIL_FLEET, ratio: 1.5, exposedBy: 'vehicle' as const };
const frailty: Study = {
  method: 'kaplanMeier',
  setting: 'late entry; wheel ends share their vehicle’s fate (tau 0.4)',
  claims: {
    'robust at 80': 'covers',
    'robust at 160': 'covers',
    'model-based at 160': 'falls short',
    'robust B10 life': 'covers',
    'robust restricted mean': 'covers',
    'model-based restricted mean': 'falls short',
    'robust difference of restricted means': 'covers',
    'model-based difference of restricted means': 'falls short',
  },
  play(random) {
    const fleet = drawFleet(plan, random);
    const curves = kaplanMeier({ ...fleet, group: fleet.exposed, cluster: fleet.vehicle });
    const [without, having] = curves as [SurvivalCurve, SurvivalCurve];
    const [early, later] = [survivalAt(without, EARLY), survivalAt(without, LATER)];
    const life = quantile(without, 0.1);
    const mean = restrictedMean(without, LATER);
    const difference = restrictedMeanDifference(having, without, LATER);
    const [meanTruth, meanExposed] = [trueRestrictedMean(plan, LATER), trueRestrictedMean(plan, LATER, true)];
    return {
      'robust at 80': holds(robust(early), trueSurvival(plan, EARLY)),
      'robust at 160': holds(robust(later), trueSurvival(plan, LATER)),
      'model-based at 160': holds(later, trueSurvival(plan, LATER)),
      'robust B10 life': holds(robust(life), trueLifeAt(plan, 0.1)),
      'robust restricted mean': holds(robust(mean), meanTruth),
      'model-based restricted mean': holds(mean, meanTruth),
      'robust difference of restricted means': holds(robust(difference), meanExposed - meanTruth),
      'model-based difference of restricted means': holds(difference, meanExposed - meanTruth),
    };
  },
};

export const curveStudies: Study[] = [
  ...modelLimits('independent lives, records end at 60 to 300', PLAIN_FLEET),
  ...modelLimits('two in five enter late', LATE_FLEET),
  frailty,
];
