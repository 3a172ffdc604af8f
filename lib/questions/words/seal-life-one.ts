import { horizonOf } from '../../../shared/view.ts';
import { curveFrom, shownLimits, type Group } from '../../../shared/finding.ts';
import { rateName } from '../age-axis.ts';
import { firmnessRule } from '../firmness.ts';
import type { SealLifeAnswer } from './seal-life-asked.ts';
import { percent, percentRange, sentenceCase } from './share-words.ts';
import { counted, ratioText } from './wording.ts';

/** Everything asked about taken as one group. */
export function sealLifeOfOne(asked: SealLifeAnswer, group: Group): string {
  const { words, thing, view } = asked;
  if (group.failures < firmnessRule.thinFailures) return tooFew(asked, group);
  const start = curveFrom(group) ?? 0;
  const who = start > 0 ? `of ${thing.many} that reached ${words.age(start)}, ` : '';
  const behind = `${counted(group.failures, thing.failure)} in ${counted(group.lives, 'life', 'lives')}`;
  const tenth = group.estimates['b10Life'];
  const share = group.estimates['failedByHorizonHadNoneBeenRenewed'];
  if (tenth && tenth.value !== null)
    return `${sentenceCase(`${who}**one ${thing.one} in ten**`)} has ${thing.failed} by **${words.age(tenth.value)}** ${words.ageRange(shownLimits(tenth))}, from ${behind}. ${shapeWords(asked, group)}`;
  if (share && share.value !== null)
    return `${sentenceCase(`${who}**${percent(share.value)}** of ${thing.many}`)} have ${thing.failed} by **${words.age(horizonOf(view))}** ${percentRange(shownLimits(share), share.value)}, from ${behind}; one in ten is not reached.`;
  const rate = group.estimates[rateName('failures', view.axis)];
  const seen = rate ? `${words.rate(rate.value ?? 0)} ${words.per} ${words.rateRange(shownLimits(rate))}` : '';
  return `**It cannot be told** when one ${thing.one} in ten has ${thing.failed}: too few are watched for long enough. Seen are ${behind}, ${seen}.`;
}

const notTold = 'Whether they fail early or wear out cannot be told';

function shapeWords({ oneShape, words }: SealLifeAnswer, group: Group): string {
  const shape = group.estimates['weibullShape'];
  if (!shape || shape.value === null) return `${notTold}.`;
  const { lower, upper } = shownLimits(shape);
  if (lower === null || upper === null) return `${notTold}.`;
  if (!oneShape) return 'No single Weibull shape fits: early failures and wear may both be among them.';
  const said = `(Weibull shape ${ratioText(shape.value)}, ${ratioText(lower)} to ${ratioText(upper)})`;
  if (upper < 1) return `They fail early: the risk falls with ${words.ageName} ${said}.`;
  return lower > 1 ? `They wear out: the risk rises with ${words.ageName} ${said}.` : `${notTold} ${said}.`;
}

function tooFew({ words, thing, view }: SealLifeAnswer, group: Group): string {
  const rate = group.estimates[rateName('failures', view.axis)];
  const upper = rate ? shownLimits(rate).upper : null;
  if (!rate || upper === null)
    return `**No ${words.least}** of these ${thing.many} was watched, so nothing can be said.`;
  const among = `among ${counted(group.lives, thing.one, thing.many)} in ${words.watched(group)}`;
  if (group.failures === 0)
    return `**No ${thing.failure}** ${among}. That still allows one every ${words.every(upper)}.`;
  return `**Too few to say**: ${counted(group.failures, thing.failure)} ${among}, ${words.rate(rate.value ?? 0)} ${words.per} ${words.rateRange(shownLimits(rate))}.`;
}
