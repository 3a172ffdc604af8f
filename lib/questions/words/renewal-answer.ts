import { shownLimits, type Group } from '../../../shared/finding.ts';
import { percentSign } from '../../../shared/percent-sign.ts';
import type { View } from '../../../shared/view.ts';
import { firmnessRule } from '../firmness.ts';
import { flatWithin } from '../renewal/renewal-plan.ts';
import { flatRange, type RenewalGroup } from '../renewal/renewal-group.ts';
import type { ComponentWords } from './component-words.ts';
import { emphasised, type Answer } from './emphasised.ts';
import { failureCostSays, moneySays } from './failure-cost-says.ts';
import { groupWords } from './group-words.ts';
import { inWords, listed, ofHundred, percent, percentRange, range100, sentenceCase } from './share-words.ts';
import { count, counted, range, significant, type Wording } from './wording.ts';

export interface RenewalAsked {
  readonly view: View;
  readonly words: Wording;
  readonly thing: ComponentWords;
  readonly told: readonly RenewalGroup[];
  /** The group the answer leans on; null where there are no lives. */
  readonly main: RenewalGroup | null;
}

const mostNamed = 4;

/** When does planned renewal pay? The miles, how flat, what each renewal opens to again, and the procedure's own. */
export function renewalAnswer(asked: RenewalAsked): Answer {
  const { told, main, view } = asked;
  if (!main || main.group.lives === 0) return emphasised('**No replacement lives** of known start match this choice.');
  const several = view.by.length > 0 && told.length > 1;
  const own = main.plan.reason === null ? named(asked, main, several) : refused(asked, main, several);
  const rest = several ? othersSay(asked, main) : '';
  const flat = main.plan.reason === null ? `${flatSays(asked, main)}${allTheSame(asked, main)}` : '';
  return emphasised(
    `${own}${rest}`,
    `${flat}${earlySays(asked, main.group)}${procedureSays(asked, main)}${costsSay(asked, main)}`,
  );
}

const whose = ({ group }: RenewalGroup, several: boolean): string => (several ? ` ${groupWords(group)}` : '');
const limits = (group: Group, name: string) => {
  const estimate = group.estimates[name];
  return estimate ? shownLimits(estimate) : { lower: null, upper: null };
};
const value = (group: Group, name: string): number | null => group.estimates[name]?.value ?? null;

function named(asked: RenewalAsked, main: RenewalGroup, several: boolean): string {
  const { words, thing } = asked;
  const { group } = main;
  const [miles, share] = [value(group, 'renewalMiles') ?? 0, value(group, 'savingShare') ?? 0];
  const saved = `${percent(share)} ${percentRange(limits(group, 'savingShare'), share)} less than running to failure`;
  return `At the costs entered, planned renewal${whose(main, several)} costs least at **${words.miles(miles)}** ${words.ageRange(limits(group, 'renewalMiles'))}: ${saved}. ${counted(group.failures, thing.failure)}.`;
}

function allTheSame({ thing }: RenewalAsked, { group }: RenewalGroup): string {
  const failed = value(group, 'failedByRenewal');
  if (failed === null) return '';
  return ` Of 100 ${thing.many}, ${ofHundred(failed).replace(' of 100', '')} ${range100(limits(group, 'failedByRenewal'))} have ${thing.failed} before those miles all the same.`;
}

function flatSays({ words }: RenewalAsked, { plan }: RenewalGroup): string {
  const flat = flatRange(plan);
  if (!flat) return '';
  const open = flat.open ? ', as far as lives were watched,' : '';
  return ` Anywhere from ${words.miles(flat.from)} to ${words.miles(flat.to)}${open} it costs within ${flatWithin * 100}${percentSign} of that.`;
}

function earlySays({ view, words, thing }: RenewalAsked, group: Group): string {
  const early = value(group, 'earlyFailuresPerThousand');
  if (early === null) return '';
  const said = range(limits(group, 'earlyFailuresPerThousand'), (one) => count(Math.round(one)));
  return ` Each renewal is a new installation: of 1,000, ${count(Math.round(early))} ${said} have ${thing.failed} within ${words.miles(view.earlyMiles)}.`;
}

function procedureSays({ words }: RenewalAsked, { group, lives, plan }: RenewalGroup): string {
  const [most] = lives.intervals;
  if (!most) return '';
  const estimate = group.estimates['costAtProcedureInterval'];
  const least = value(group, 'costAtRenewal');
  const of = most.lives < group.lives ? ` for ${count(most.lives)} of these lives` : '';
  const head = ` The procedure renews at ${words.miles(most.miles)}${of}`;
  if (estimate?.value == null) return `${head}: what that costs cannot be told, ${estimate?.reason ?? 'not planned'}.`;
  if (least === null) return '';
  const more = estimate.value / least - 1;
  return plan.reason === null ? `${head}, which costs ${percent(Math.max(0, more))} more than the least.` : '';
}

function refused(asked: RenewalAsked, main: RenewalGroup, several: boolean): string {
  const { thing, words } = asked;
  const { group, plan } = main;
  const share = value(group, 'savingShare');
  const least = plan.plan?.leastCostAge ?? null;
  const would =
    share === null || least === null
      ? ''
      : ` At ${words.miles(least)}${least > plan.watchedTo ? ', beyond what was watched,' : ''} the saving over running to failure would be ${percentOrLess(share)} ${range(limits(group, 'savingShare'), (one) => (one * 100).toFixed(1)).replace(/\)$/, `${percentSign})`)}.`;
  const few = group.failures < firmnessRule.fairFailures ? '' : ` ${counted(group.failures, thing.failure)}.`;
  return `Planned renewal${whose(main, several)} is **not shown to pay**: ${plan.reason ?? ''}.${would}${few}`;
}

const percentOrLess = (share: number): string =>
  share < 0 ? `${significant(share * 100, 2)}${percentSign}` : percent(share);

function othersSay({ told, words }: RenewalAsked, main: RenewalGroup): string {
  const others = told.filter((one) => one !== main && one.group.lives > 0);
  const paying = others.filter(({ plan }) => plan.reason === null);
  const not = others.filter(({ plan }) => plan.reason !== null);
  const says = paying
    .slice(0, mostNamed)
    .map(
      ({ group }) =>
        `${groupWords(group)} ${words.miles(value(group, 'renewalMiles') ?? 0)} ${words.ageRange(limits(group, 'renewalMiles'))}`,
    );
  const notSays =
    not.length === 0
      ? ''
      : not.length <= mostNamed
        ? `not shown to pay ${listed(not.map(({ group }) => groupWords(group)))}`
        : `not shown to pay in ${inWords(not.length)} more groups`;
  const all = [...says, notSays].filter((part) => part !== '');
  return all.length === 0 ? '' : ` ${sentenceCase(all.join('; '))}.`;
}

/** What a failure was taken to cost, and which shares of it come from the records. */
const costsSay = ({ view, thing }: RenewalAsked, { plan: { cost } }: RenewalGroup): string =>
  ` Taken: ${moneySays(view.plannedCost)} a renewal, ${failureCostSays(cost, thing.failure)}; costs are assumptions until entered.`;
