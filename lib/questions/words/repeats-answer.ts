import { shownLimits, type Estimate, type Group } from '../../../shared/finding.ts';
import { earlyOf, horizonOf, type View } from '../../../shared/view.ts';
import type { Ratio } from '../causes/ratios.ts';
import { firmnessRule } from '../firmness.ts';
import { afterFailure, afterRenewal } from '../repeats/repeats-groups.ts';
import { chanceClause } from './chance-words.ts';
import type { ComponentWords } from './component-words.ts';
import { emphasised, type Answer } from './emphasised.ts';
import { listed, percent, percentRange, sentenceCase } from './share-words.ts';
import { count, range, ratioText, type Wording } from './wording.ts';

export interface RepeatsAsked {
  readonly view: View;
  readonly words: Wording;
  readonly thing: ComponentWords;
  readonly groups: readonly Group[];
  readonly ratio: Ratio;
  readonly mean: Estimate;
}

/** Do repaired wheel ends fail again? How soon after a failure, against after a renewal without one. */
export function repeatsAnswer(asked: RepeatsAsked): Answer {
  const { groups, ratio } = asked;
  if (groups.length === 0) return emphasised('**No lives** of known start match this choice.');
  const of = (label: string) => groups.find((group) => group.label === label);
  const [again, other] = [of(afterFailure), of(afterRenewal)];
  if (!again || again.failures < firmnessRule.thinFailures)
    return emphasised(
      `**Too few to tell**: ${again ? count(again.failures) : 'no'} failures in ${count(again?.lives ?? 0)} lives that follow a failure.`,
      meanSays(asked),
    );
  const sides = [again, ...(other ? [other] : [])].flatMap((group) => {
    const share = group.estimates['failedWithinEarly'];
    return share?.value == null
      ? []
      : [`**${percent(share.value)}** ${percentRange(shownLimits(share), share.value)} ${group.label}`];
  });
  const { thing, view, words } = asked;
  const soon =
    sides.length > 0
      ? `Within ${words.age(earlyOf(view))} ${listed(sides)} have ${thing.failed}`
      : `How many have ${thing.failed} within ${words.age(earlyOf(view))} cannot be told`;
  return emphasised(`${soon}.${ratioSays(ratio)}`, countsSay(again, other), meanSays(asked));
}

function ratioSays({ estimate, pValue }: Ratio): string {
  if (estimate.value === null) return ` What else is known taken into account, no ratio is given: ${estimate.reason}.`;
  return ` What else is known taken into account, ${afterFailure} they fail ${ratioText(estimate.value)} times as often ${range(shownLimits(estimate), ratioText)} as ${afterRenewal}${chanceClause(pValue)}.`;
}

function countsSay(again: Group, other: Group | undefined): string {
  const parts = [again, ...(other ? [other] : [])].map(
    ({ failures, lives, label }) => `${count(failures)} of ${count(lives)} lives ${label}`,
  );
  return `${sentenceCase(`failed are ${listed(parts)}`)}.`;
}

function meanSays({ mean, view, words }: RepeatsAsked): string {
  if (mean.value === null) return '';
  return `In the first ${words.age(horizonOf(view))} watched a wheel end has had ${ratioText(mean.value)} failures on average ${range(shownLimits(mean), ratioText)}.`;
}
