import {
  cumulativeIncidence,
  grayTest,
  kaplanMeier,
  nelsonAalen,
  survivalAt,
  type IncidenceCurve,
  type SurvivalCurve,
} from '../../../lib/statistics/index.ts';
import type { Random } from '../../../lib/statistics/numeric/random.ts';
import { drawFleet, FRAIL_FLEET, LATE_FLEET, PLAIN_FLEET, trueSurvival, type FleetPlan } from '../fleet.ts';
import { holds, type Study } from '../study.ts';

/** Three in five ends are leaks (1), the others renewals (2), at every age: the true incidence of a leak is 0.6·(1 − S). */
function withCauses(plan: FleetPlan, random: Random) {
  const fleet = drawFleet(plan, random);
  return { ...fleet, event: fleet.event.map((ended) => (ended ? (random.uniform() < 0.6 ? 1 : 2) : 0)) };
}

const trueLeaks = (plan: FleetPlan, age: number): number => 0.6 * (1 - trueSurvival(plan, age));

/** Place of the last time at or before an age. */
const placeAt = (times: Float64Array, age: number): number => times.findLastIndex((time) => time <= age);

function limitsAt(curve: IncidenceCurve, age: number, robust = false) {
  const place = placeAt(curve.time, age);
  const [lower, upper] = robust ? [curve.robustLower, curve.robustUpper] : [curve.lower, curve.upper];
  return { lower: lower?.[place], upper: upper?.[place] };
}

const independent = (setting: string, plan: FleetPlan): Study => ({
  method: 'cumulativeIncidence',
  setting,
  claims: {
    'leaks by 80': 'covers',
    'leaks by 160': 'covers',
    'leaks by 160, plain limits': 'covers',
    'leaks by 240, 1 − Kaplan–Meier of leaks alone': 'off target',
  },
  play(random) {
    const fleet = withCauses(plan, random);
    const curve = cumulativeIncidence(fleet)[0] as IncidenceCurve;
    const plain = cumulativeIncidence(fleet, { interval: 'plain' })[0] as IncidenceCurve;
    const alone = kaplanMeier({
      ...fleet,
      event: fleet.event.map((cause) => (cause === 1 ? 1 : 0)),
    })[0] as SurvivalCurve;
    const { survival } = survivalAt(alone, 240);
    return {
      'leaks by 80': holds(limitsAt(curve, 80), trueLeaks(plan, 80)),
      'leaks by 160': holds(limitsAt(curve, 160), trueLeaks(plan, 160)),
      'leaks by 160, plain limits': holds(limitsAt(plain, 160), trueLeaks(plan, 160)),
      'leaks by 240, 1 − Kaplan–Meier of leaks alone':
        survival === null ? null : (1 - survival) / trueLeaks(plan, 240) - 1,
    };
  },
});

const frail: Study = {
  method: 'cumulativeIncidence',
  setting: 'late entry; wheel ends share their vehicle’s fate (tau 0.4)',
  claims: { 'robust, leaks by 160': 'covers', 'model-based, leaks by 160': 'falls short' },
  play(random) {
    const fleet = withCauses(FRAIL_FLEET, random);
    const curve = cumulativeIncidence({ ...fleet, cluster: fleet.vehicle })[0] as IncidenceCurve;
    return {
      'robust, leaks by 160': holds(limitsAt(curve, 160, true), trueLeaks(FRAIL_FLEET, 160)),
      'model-based, leaks by 160': holds(limitsAt(curve, 160), trueLeaks(FRAIL_FLEET, 160)),
    };
  },
};

const gray: Study = {
  method: 'grayTest',
  setting: 'no difference; exposure by vehicle',
  claims: {
    'independent lives': 'rejects at most',
    'late entry': 'rejects at most',
    'late entry, stratified by four shops': 'rejects at most',
    'shared fate (tau 0.4), robust': 'rejects at most',
    'shared fate (tau 0.4), robust, stratified by four shops': 'rejects at most',
    'shared fate (tau 0.4), model-based': 'rejects too often',
  },
  play(random) {
    const rejects = ({ pValue }: { readonly pValue: number | null }) => (pValue === null ? null : pValue < 0.05);
    const test = (plan: FleetPlan, stratified = false) => {
      const fleet = withCauses({ ...plan, exposedBy: 'vehicle' }, random);
      const strata = stratified ? { strata: fleet.vehicle.map((vehicle) => vehicle % 4) } : {};
      const group = { levels: ['without', 'with'], codes: fleet.exposed };
      return grayTest({ ...fleet, ...strata, group, cluster: fleet.vehicle });
    };
    const [shared, inShops] = [test(FRAIL_FLEET), test(FRAIL_FLEET, true)];
    return {
      'independent lives': rejects(test(PLAIN_FLEET)),
      'late entry': rejects(test(LATE_FLEET)),
      'late entry, stratified by four shops': rejects(test(LATE_FLEET, true)),
      'shared fate (tau 0.4), robust': shared.robust ? rejects(shared.robust) : null,
      'shared fate (tau 0.4), robust, stratified by four shops': inShops.robust ? rejects(inShops.robust) : null,
      'shared fate (tau 0.4), model-based': rejects(shared),
    };
  },
};

const hazard: Study = {
  method: 'nelsonAalen',
  setting: 'late entry; the last two with shared fate (tau 0.4)',
  claims: { 'log limits at 160': 'covers', 'robust at 160': 'covers', 'model-based at 160': 'falls short' },
  play(random) {
    const truth = -Math.log(trueSurvival(LATE_FLEET, 160));
    const curve = nelsonAalen(drawFleet(LATE_FLEET, random))[0];
    const fleet = drawFleet(FRAIL_FLEET, random);
    const clustered = nelsonAalen({ ...fleet, cluster: fleet.vehicle })[0];
    if (!curve || !clustered) return {};
    const [place, other] = [placeAt(curve.time, 160), placeAt(clustered.time, 160)];
    return {
      'log limits at 160': holds({ lower: curve.lower[place], upper: curve.upper[place] }, truth),
      'robust at 160': holds({ lower: clustered.robustLower?.[other], upper: clustered.robustUpper?.[other] }, truth),
      'model-based at 160': holds({ lower: clustered.lower[other], upper: clustered.upper[other] }, truth),
    };
  },
};

export const incidenceStudies: Study[] = [
  hazard,
  independent('independent lives, records end at 60 to 300', PLAIN_FLEET),
  independent('two in five enter late', LATE_FLEET),
  frail,
  gray,
];
