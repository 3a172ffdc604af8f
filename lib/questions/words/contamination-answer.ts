import { shownLimits, type Estimate, type Group } from '../../../shared/finding.ts';
import { firmnessRule } from '../firmness.ts';
import { emphasised, type Answer } from './emphasised.ts';
import { groupWords } from './group-words.ts';
import { comparedRates, noLives, rateAnswer, tooFewToCompare, type RateAnswer } from './rate-answer.ts';
import { listed, ofHundred, range100, sentenceCase } from './share-words.ts';
import { counted } from './wording.ts';

const shareOf = (group: Group): Estimate => group.estimates['contaminatedShareOfLeaks'] as Estimate;
const told = ({ counts }: Group): number => (counts['leaksSoaked'] ?? 0) + (counts['leaksClean'] ?? 0);

/** `38 of 100 seal leaks reached the lining (34 to 42)`. */
function shareWords(group: Group): string {
  const share = shareOf(group);
  return `**${ofHundred(share.value ?? 0)}** seal leaks${groupWords(group) ? ` ${groupWords(group)}` : ''} reached the lining ${range100(shownLimits(share))}`;
}

/** How many seal leaks reached the lining, and how often linings are soaked. */
export function contaminationAnswer(asked: RateAnswer): Answer {
  const { groups, view, words, what, events, comparison } = asked;
  const [only] = groups;
  if (!only || noLives(groups)) return emphasised('**No lives** match this choice.');
  if (view.by.length === 0) {
    if (told(only) < firmnessRule.thinFailures || shareOf(only).value === null) return rateAnswer(asked);
    const rate = only.estimates[asked.rate] as Estimate;
    return emphasised(
      `${shareWords(only)}, of ${counted(told(only), 'leak')} that tell. ${words.rate(rate.value ?? 0)} ${what.event}s ${words.per} ${words.rateRange(shownLimits(rate))}, ${counted(events[0] as number, what.event)} in all.`,
    );
  }
  const first = sentenceCase(comparison ? comparedRates(asked, comparison) : tooFewToCompare(asked));
  return emphasised(first, sharesCompared(asked));
}

/** The shares of the two groups compared, where enough leaks tell. */
function sharesCompared({ groups, comparison }: RateAnswer): string {
  if (!comparison) return '';
  const pair = [comparison.compared, comparison.reference].map((index) => groups[index] as Group);
  if (pair.some((group) => told(group) < firmnessRule.thinFailures || shareOf(group).value === null)) return '';
  const say = pair.map((group) => {
    const share = shareOf(group);
    return `${ofHundred(share.value ?? 0)} ${groupWords(group)} ${range100(shownLimits(share))}`;
  });
  return `Of seal leaks that tell, ${listed(say)} reached the lining.`;
}
