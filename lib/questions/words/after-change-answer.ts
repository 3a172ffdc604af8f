import { shownLimits, type Estimate } from '../../../shared/finding.ts';
import { directionOf, leadingRatio } from '../after-change/change-verdict.ts';
import type { JudgedLives } from '../after-change/judged.ts';
import { pWords } from '../firmness.ts';
import { componentWords } from './component-words.ts';
import { emphasised, type Answer } from './emphasised.ts';
import { listed, percent, percentRange } from './share-words.ts';
import { count, range, ratioText } from './wording.ts';

const leads = {
  fewer: '**Fewer failures since**',
  more: '**More failures since**',
  chance: '**No difference to be told from chance**',
  untold: '**Cannot be told yet**',
} as const;

/** Did the change work? The ratio against before, against other shops, whether it was followed, and what it is held against. */
export function afterChangeAnswer(of: JudgedLives): Answer {
  const { contrast, change, evidence } = of;
  const direction = directionOf(of);
  const where = listed(change.shops.map((shop) => `“${shop}”`));
  const [before, after] = contrast.changed;
  const counts = `${count(after.failures)} failures in ${count(after.lives)} lives after, ${count(before.failures)} in ${count(before.lives)} before`;
  const [followed, against] = [followedSays(of), againstSays(of)];
  if (direction === 'untold')
    return emphasised(
      `${leads.untold} at ${where} from ${change.date}: ${contrast.afterBefore.estimate.reason ?? 'no ratio'} (${counts}). ${against.says}`,
      followed,
      against.needs,
    );
  const { many, failure } = componentWords[evidence.asked.component];
  const happens =
    evidence.asked.kind === 'any'
      ? 'wheel ends failed'
      : evidence.asked.kind === 'lining'
        ? 'linings were soaked'
        : `${many} ${failure === 'leak' ? 'leaked' : 'failed'}`;
  const own = `at ${where} ${happens} ${times(contrast.afterBefore.estimate)} as often where fitted from ${change.date} on as where fitted before, at like ages and work (${counts})`;
  const { ratio, against: beside } = leadingRatio(of);
  const chance = ratio.pValue === null ? '' : `, ${pWords(ratio.pValue)}`;
  const others =
    beside === 'others'
      ? `Other shops over the same time ${times(contrast.afterBeforeOthers.estimate)}: against them **${times(contrast.againstOthers.estimate)}**${chance}.`
      : `No other shops can be held against it: ${contrast.againstOthers.estimate.reason ?? ''}${chance}.`;
  return emphasised(`${leads[direction]}: ${own}. ${others}${spellSays(of)} ${against.says}`, followed, against.needs);
}

const times = (estimate: Estimate): string =>
  estimate.value === null
    ? 'cannot be told'
    : `${ratioText(estimate.value)} times ${range(shownLimits(estimate), ratioText)}`;

function spellSays({ spell, withoutSpell }: JudgedLives): string {
  if (spell?.standing !== 'well above' || withoutSpell === null) return '';
  const { againstOthers, afterBefore } = withoutSpell;
  const estimate = againstOthers.estimate.value === null ? afterBefore.estimate : againstOthers.estimate;
  return ` The change follows a bad spell, after which a shop gets better by itself: without that spell ${times(estimate)}, and the limits above reach over both.`;
}

function followedSays({ followed }: JudgedLives): string {
  const { prevalenceBefore: before, prevalenceAfter: after } = followed.changed.estimates;
  if (before.value === null || after.value === null) return 'Whether jobs deviate less is not recorded.';
  const { unlike, likeForLike } = followed.changed;
  const each =
    unlike.length === 0 || likeForLike.shares === null
      ? ''
      : `; they are not written down alike, and deviation by deviation it is ${likeForLike.shares.map((share) => percent(share)).join(' and ')}`;
  return `Jobs with a deviation: ${percent(before.value)} ${percentRange(shownLimits(before), before.value)} before, ${percent(after.value)} ${percentRange(shownLimits(after), after.value)} after${each}.`;
}

/** What the change is held against, and how much of what was asked for then is in. */
function againstSays({ change: { record, against }, contrast: { changed }, evidence, day }: JudgedLives): {
  readonly says: string;
  readonly needs: string;
} {
  if (record === null)
    return { says: 'Judged against a date given now, not against a change written down beforehand.', needs: '' };
  const months = Math.max(0, Math.floor((evidence.followedTo - day) / 30.4375));
  const needs = `Expected then: ${ratioText(record.expectedRatio)} times. ${count(changed[1].failures)} of ${count(record.failuresNeeded)} failures and ${count(months)} of ${count(record.monthsNeeded)} months needed are in.`;
  return { says: `Judged against what was ${against}, on ${record.writtenOn}.`, needs };
}
