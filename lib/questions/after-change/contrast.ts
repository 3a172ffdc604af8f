import { coxRegression, type CoxRegression, type SurvivalData } from '../../statistics/index.ts';
import { noRatio, ratioOfTerm, type Ratio } from '../causes/ratios.ts';
import { firmnessRule } from '../firmness.ts';
import { placesWhere } from '../gather.ts';
import { attributeName } from '../words/group-words.ts';
import { listed } from '../words/share-words.ts';
import type { ChangeEvidence } from './change-evidence.ts';
import { commonAges, withinAges, type CommonAges, type WithinAges } from './common-ages.ts';
import { covariateNames, modelData, pooledAgain } from './model-data.ts';

/** Before and after of one side. */
export interface Cohort {
  readonly lives: number;
  readonly failures: number;
}

/** Failures after over before of some shops, and that over the same of others. */
export interface Contrast {
  /** Ages told of; null where the two cohorts of the changed shops have none in common. */
  readonly ages: CommonAges | null;
  readonly changed: readonly [Cohort, Cohort];
  readonly others: readonly [Cohort, Cohort];
  readonly afterBefore: Ratio;
  readonly afterBeforeOthers: Ratio;
  readonly againstOthers: Ratio;
  /** Robust over model variance of the log ratio against before: how far wheel ends of one vehicle fail together. */
  readonly design: number;
}

export interface ContrastAsked {
  /** 1 where fitted by a shop that changed, 0 by one that did not; anything else takes no part. */
  readonly side: ArrayLike<number>;
  /** 1 where fitted after the change, 0 before; anything else takes no part. */
  readonly after: ArrayLike<number>;
  readonly level: number;
}

/** Ages both cohorts of the changed shops reach, within these the adjusted ratios. */
export function contrast(evidence: ChangeEvidence, asked: ContrastAsked): Contrast {
  const { side, after } = asked;
  const all = evidence.rows.length;
  const cell = (own: number, when: number) => placesWhere(all, (at) => side[at] === own && after[at] === when);
  const ages = commonAges(evidence, [cell(1, 0), cell(1, 1)]);
  const nobody = { lives: 0, failures: 0 };
  if (ages === null) {
    const none = noRatio(
      about(evidence, asked.level, ''),
      'before and after have no age in common at which ten lives are at risk',
    );
    const whole = (own: number): [Cohort, Cohort] => [
      { ...nobody, lives: cell(own, 0).length },
      { ...nobody, lives: cell(own, 1).length },
    ];
    return {
      ...{ ages, changed: whole(1), others: whole(0), design: 1 },
      ...{ afterBefore: none, afterBeforeOthers: none, againstOthers: none },
    };
  }
  const part = (test: (at: number) => boolean) => withinAges(evidence, placesWhere(all, test), ages);
  const ownSide = (own: number) => part((at) => side[at] === own && (after[at] === 0 || after[at] === 1));
  const [changed, others] = [ownSide(1), ownSide(0)];
  const both = part((at) => (side[at] === 0 || side[at] === 1) && (after[at] === 0 || after[at] === 1));
  const own = afterOverBefore(evidence, changed, asked);
  return {
    ages,
    changed: cohorts(changed, after),
    others: cohorts(others, after),
    ...{ afterBefore: own.ratio, design: own.design },
    afterBeforeOthers: afterOverBefore(evidence, others, asked).ratio,
    againstOthers: againstOthers(evidence, both, asked, [cohorts(changed, after), cohorts(others, after)]),
  };
}

function cohorts({ places, event }: WithinAges, after: ArrayLike<number>): [Cohort, Cohort] {
  const sums: [Cohort, Cohort] = [
    { lives: 0, failures: 0 },
    { lives: 0, failures: 0 },
  ];
  places.forEach((at, place) => {
    const when = after[at] as 0 | 1;
    sums[when] = { lives: sums[when].lives + 1, failures: sums[when].failures + (event[place] as number) };
  });
  return sums;
}

/** Why failures are too few before or after; null where they are not. */
function tooFew([before, after]: readonly [Cohort, Cohort], where: string): string | null {
  const few = (failures: number, when: string) =>
    `fewer than ${firmnessRule.thinFailures} failures ${when}${where}: ${failures}`;
  if (before.failures < firmnessRule.thinFailures) return few(before.failures, 'before');
  return after.failures < firmnessRule.thinFailures ? few(after.failures, 'after') : null;
}

const about = (evidence: ChangeEvidence, level: number, more: string) => {
  const names = covariateNames(evidence, false).map(attributeName);
  const taken = names.length === 0 ? 'nothing' : listed(names);
  return {
    level,
    method: `Cox, late entry, ages both cohorts reach, ${taken} taken into account, within shop; vehicles as clusters${more}`,
  };
};

/** Where levels with few failures keep the likelihood from a maximum, they are put together among these lives too. */
function fitWith(
  data: SurvivalData & Pick<Required<SurvivalData>, 'covariates'>,
  covariates: Record<string, Float64Array>,
  term: string,
  level: number,
): CoxRegression {
  const options = { level, concordance: false, limitsOf: [term] };
  const fit = coxRegression({ ...data, covariates: { ...data.covariates, ...covariates } }, options);
  if (fit.converged) return fit;
  const fewer = pooledAgain(data);
  return coxRegression({ ...data, covariates: { ...fewer, ...covariates } }, options);
}

function afterOverBefore(evidence: ChangeEvidence, lives: WithinAges, { after, level }: ContrastAsked) {
  const said = about(evidence, level, '');
  const few = tooFew(cohorts(lives, after), '');
  if (few !== null) return { ratio: noRatio(said, few), design: 1 };
  const column = Float64Array.from(lives.places, (at) => after[at] as number);
  const fit = fitWith(modelData(evidence, lives, false), { 'after the change': column }, 'after the change', level);
  const at = fit.terms.indexOf('after the change');
  const [robust, model] = [fit.robustStandardErrors?.[at], fit.standardErrors[at]];
  return {
    ratio: ratioOfTerm(fit, 'after the change', said),
    design: robust !== undefined && model !== undefined && model > 0 ? Math.max(1, (robust / model) ** 2) : 1,
  };
}

/** Difference in differences: after over before of the changed shops, over the same of the others. */
function againstOthers(
  evidence: ChangeEvidence,
  lives: WithinAges,
  { side, after, level }: ContrastAsked,
  [changed, others]: readonly [readonly [Cohort, Cohort], readonly [Cohort, Cohort]],
): Ratio {
  const said = about(evidence, level, '; over the same ratio of the other shops');
  const few = tooFew(changed, '') ?? tooFew(others, ' in the other shops');
  if (few !== null) return noRatio(said, few);
  const late = Float64Array.from(lives.places, (at) => after[at] as number);
  const both = Float64Array.from(lives.places, (at) => (after[at] === 1 && side[at] === 1 ? 1 : 0));
  const term = 'after the change, where it was made';
  const fit = fitWith(modelData(evidence, lives, true), { 'after the change': late, [term]: both }, term, level);
  return ratioOfTerm(fit, term, said);
}
