import {
  attributableFractionOfFit,
  coxRegression,
  coxResiduals,
  coxTimeSplit,
  excessShare,
} from '../../../lib/statistics/index.ts';
import { createRandom } from '../../../lib/statistics/numeric/random.ts';
import { drawExcessFleet, EXCESS_PLAN, trueFailed, type ExcessPlan } from '../excess-fleet.ts';
import { holds, type Study } from '../study.ts';

const robustly = (side: { robustLower?: number | null; robustUpper?: number | null } | undefined, truth: number) =>
  side?.robustLower == null ? null : holds({ lower: side.robustLower, upper: side.robustUpper }, truth);

const earlyAndLater = (setting: string, plan: ExcessPlan): Study => ({
  method: 'coxTimeSplit',
  setting,
  shortRun: 25,
  claims: {
    'early ratio, robust': 'covers',
    'later ratio, robust': 'covers',
    'change, robust': 'covers',
    'test of no change, robust': 'rejects at most',
  },
  play(random) {
    const split = (one: ExcessPlan) =>
      coxTimeSplit(drawExcessFleet(one, random), { covariate: 'exposed', cut: plan.cut, concordance: false }).terms[0];
    const some = split(plan);
    const none = split({ ...plan, later: plan.early });
    return {
      'early ratio, robust': robustly(some?.early, plan.early),
      'later ratio, robust': robustly(some?.later, plan.later),
      'change, robust': robustly(some?.change, plan.later / plan.early),
      'test of no change, robust': none?.pValue == null ? null : none.pValue < 0.05,
    };
  },
});

const ONE_RATIO: ExcessPlan = { ...EXCESS_PLAN, early: 2.5, later: 2.5, exposedBy: 'vehicle' };

/** Share of the failures on record exposed, times 1 − 1/ratio: by a fleet so large that chance leaves 0.2 % of it. */
const trueFraction = (() => {
  let known: number | null = null;
  return () => {
    if (known !== null) return known;
    const { event, covariates } = drawExcessFleet({ ...ONE_RATIO, vehicles: 200_000 }, createRandom(7));
    let [failed, exposed] = [0, 0];
    event.forEach((one, row) => {
      failed += one;
      exposed += one * (covariates.exposed[row] as number);
    });
    return (known = (exposed / failed) * (1 - 1 / ONE_RATIO.early));
  };
})();

const attributable: Study = {
  method: 'attributableFractionOfFit',
  setting: 'late entry, confounded by shop and duty; exposure by vehicle, wheel ends share its fate (tau 0.4)',
  shortRun: 25,
  claims: {
    robust: 'covers',
    'model-based': 'falls short',
    'share and ratio taken as independent': 'falls short',
  },
  play(random) {
    const fleet = drawExcessFleet(ONE_RATIO, random);
    const fit = coxRegression(fleet, { concordance: false });
    const influence = coxResiduals(fleet, fit).dfbeta;
    const of = (sameFailures: boolean) =>
      attributableFractionOfFit(fleet, fit, { exposures: ['exposed'], influence, sameFailures });
    const fraction = of(true);
    return {
      robust: fraction.robust && holds(fraction.robust, trueFraction()),
      'model-based': holds(fraction, trueFraction()),
      'share and ratio taken as independent': holds(of(false), trueFraction()),
    };
  },
};

/** @param byInfluence what is claimed of the limits from influences, which are for many vehicles */
const shareOfExcess = (setting: string, plan: ExcessPlan, byInfluence: 'covers' | 'labelled' = 'covers'): Study => ({
  method: 'excessShare',
  setting,
  shortRun: 15,
  claims: {
    'excess share, by vehicle': 'covers',
    'excess share, by influence of vehicles': byInfluence,
    'failed by the horizon': 'covers',
    'failed without the exposure': 'covers',
    'excess per thousand': 'covers',
  },
  play(random) {
    const options = { exposure: 'exposed', horizon: 100, cut: plan.cut, draws: 200, random };
    const fleet = drawExcessFleet(plan, random);
    const got = excessShare(fleet, options);
    const quick = excessShare(fleet, { ...options, limits: 'influence' });
    const { asRecorded, without, excessShare: truth } = trueFailed(plan, 100);
    const answered = (limits: Parameters<typeof holds>[0], value: number) =>
      got.value === null ? null : holds(limits, value);
    return {
      'excess share, by vehicle': answered(got, truth),
      'excess share, by influence of vehicles': quick.lower === null ? null : answered(quick, truth),
      'failed by the horizon': answered(got.failedWithExposure, asRecorded),
      'failed without the exposure': answered(got.failedWithoutExposure, without),
      'excess per thousand': answered(got.excessPerThousand, 1000 * (asRecorded - without)),
    };
  },
});

const EVERY_END_ALIKE: ExcessPlan = { ...EXCESS_PLAN, exposedBy: 'vehicle', early: 4, later: 2 };

const shareWrongly: Study = {
  method: 'excessShare',
  setting: 'the wrong ways: exposure by vehicle, ratio 4, then 2, confounded by shop and duty',
  shortRun: 15,
  claims: {
    'wheel ends taken as independent': 'falls short',
    'nothing adjusted for': 'off target',
    'one ratio throughout': 'labelled',
  },
  play(random) {
    const { excessShare: truth } = trueFailed(EVERY_END_ALIKE, 100);
    const fleet = drawExcessFleet({ ...EVERY_END_ALIKE, vehicles: 250 }, random);
    const { cluster: _cluster, ...strangers } = fleet;
    const { strata: _strata, ...crude } = fleet;
    const share = (data: Parameters<typeof excessShare>[0], cut?: number) =>
      excessShare(data, { exposure: 'exposed', horizon: 100, draws: 200, random, ...(cut ? { cut } : {}) });
    const apart = share(strangers, 25);
    const plain = share({ ...crude, covariates: { exposed: fleet.covariates.exposed } }, 25);
    const one = share(fleet);
    return {
      'wheel ends taken as independent': apart.value === null ? null : holds(apart, truth),
      'nothing adjusted for': plain.value === null ? null : plain.value / truth - 1,
      'one ratio throughout': one.value === null ? null : holds(one, truth),
    };
  },
};

const SHARED = 'late entry, confounded by shop and duty, wheel ends share a fate (tau 0.4)';

export const excessStudies: Study[] = [
  earlyAndLater(`${SHARED}; ratio 3, then 1.3`, EXCESS_PLAN),
  attributable,
  shareOfExcess(`${SHARED}; ratio 3, then 1.3`, EXCESS_PLAN),
  shareOfExcess(`${SHARED}; exposure by vehicle, ratio 4, then 2`, EVERY_END_ALIKE),
  shareOfExcess(`${SHARED}; no effect`, { ...EXCESS_PLAN, early: 1, later: 1 }),
  shareOfExcess(`${SHARED}; 100 vehicles, some 25 exposed failures`, { ...EXCESS_PLAN, vehicles: 100 }, 'labelled'),
  shareWrongly,
];
