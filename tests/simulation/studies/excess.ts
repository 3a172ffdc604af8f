import { attributableFractionOfFit, coxRegression, coxResiduals, coxTimeSplit } from '../../../lib/statistics/index.ts';
import { createRandom } from '../../../lib/statistics/numeric/random.ts';
import { drawExcessFleet, EXCESS_PLAN, type ExcessPlan } from '../excess-fleet.ts';
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

export const excessStudies: Study[] = [
  earlyAndLater(
    'late entry, confounded by shop and duty, wheel ends share a fate (tau 0.4); ratio 3, then 1.3',
    EXCESS_PLAN,
  ),
  attributable,
];
