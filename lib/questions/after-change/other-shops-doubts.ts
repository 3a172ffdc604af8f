import { shownLimits, type Doubt } from '../../../shared/finding.ts';
import { heterogeneityTest } from '../../statistics/index.ts';
import { doubt, failsIf } from '../doubts/doubt.ts';
import { firmnessRule, pWords } from '../firmness.ts';
import { listed } from '../words/share-words.ts';
import { count, range, ratioText } from '../words/wording.ts';
import { asFarWithoutChange, leadingRatio, mostAsFar } from './change-verdict.ts';
import type { JudgedLives } from './judged.ts';

export function yardstick(of: JudgedLives): Doubt {
  const name = 'The same where nothing was changed';
  const settledBy = 'more shops, or more time before the change';
  const far = asFarWithoutChange(of);
  if (far === null)
    return doubt(
      name,
      'cannot-tell',
      'There are no other shops or earlier dates with failures enough to make the same contrast at.',
      settledBy,
    );
  const farthest = [...of.placebos].sort((a, b) => Math.abs(b.z) - Math.abs(a.z))[0];
  const example = farthest
    ? ` The farthest is ${farthest.kind === 'shop' ? `“${farthest.label}”` : farthest.label}: ${ratioText(farthest.contrast.againstOthers.estimate.value as number)} ${range(shownLimits(farthest.contrast.againstOthers.estimate), ratioText)}.`
    : '';
  const detail = `Of ${count(far.all)} such contrasts, made at other shops and at earlier dates, ${far.some === 0 ? 'none lies' : far.some === 1 ? 'one lies' : `${count(far.some)} lie`} as far from 1 for its errors.${example}`;
  const claims = (leadingRatio(of).ratio.pValue ?? 1) < 0.05;
  return doubt(name, failsIf(claims && far.some / far.all > mostAsFar), detail, settledBy);
}

export function otherShopsDoubt(of: JudgedLives): Doubt {
  const { contrast, alsoChanged } = of;
  const name = 'Other shops over the same time';
  const settledBy = 'like work at shops that did not change';
  const { afterBeforeOthers, againstOthers, others } = contrast;
  if (againstOthers.estimate.value === null)
    return doubt(
      name,
      'fails',
      `Nothing tells what would have been without the change: ${othersReason(others, againstOthers.estimate.reason)}.`,
      settledBy,
    );
  const { value } = afterBeforeOthers.estimate;
  if (value === null)
    return doubt(name, 'cannot-tell', 'Their own ratio of after to before cannot be given.', settledBy);
  const apart = othersApart(of);
  const without =
    alsoChanged.length === 0 ? '' : ` Left out, having changed by a record of their own: ${listed(alsoChanged)}.`;
  const says = `There failures after are ${ratioText(value)} times those before ${range(shownLimits(afterBeforeOthers.estimate), ratioText)}; the answer is over and above that.${without}`;
  return doubt(name, apart?.beyondChance ? 'cannot-tell' : 'holds', `${says}${apart?.says ?? ''}`, settledBy);
}

/** Whether the other shops moved alike: where they did not, one of them may have changed something of its own. */
function othersApart({ placebos }: JudgedLives): { readonly beyondChance: boolean; readonly says: string } | null {
  const own = placebos.flatMap(({ kind, label, contrast: { afterBefore } }) => {
    const { value } = afterBefore.estimate;
    return kind !== 'shop' || value === null || value <= 0 || !afterBefore.variance
      ? []
      : [{ label, log: Math.log(value), variance: afterBefore.variance }];
  });
  const test = heterogeneityTest({ value: own.map(({ log }) => log), variance: own.map(({ variance }) => variance) });
  if (test === null) return null;
  const beyondChance = test.pValue < firmnessRule.firmPValue;
  if (!beyondChance) return { beyondChance, says: ' They moved alike, as far as can be told.' };
  const ends = [...own].sort((a, b) => a.log - b.log);
  const extremes = [ends[0], ends[ends.length - 1]].map((one) =>
    one ? `${ratioText(Math.exp(one.log))} times at “${one.label}”` : '',
  );
  return {
    beyondChance,
    says: ` They did not move alike (${pWords(test.pValue)}): from ${extremes.join(' to ')}. A shop among them that changed how it works then is left out once that change is written down.`,
  };
}

const othersReason = (others: JudgedLives['contrast']['others'], reason: string | undefined): string =>
  others[0].lives === 0 ? 'no other shop fitted anything before' : (reason ?? 'no ratio');
