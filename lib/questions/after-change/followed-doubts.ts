import { doubt } from '../doubts/doubt.ts';
import type { Doubt, Estimate } from '../../../shared/finding.ts';
import { deviationSays } from '../words/deviation-says.ts';
import { listed, percent } from '../words/share-words.ts';
import { count } from '../words/wording.ts';
import { directionOf } from './change-verdict.ts';
import type { JudgedLives } from './judged.ts';
import type { Unlike } from './prevalences.ts';

export function wasItFollowed(of: JudgedLives): Doubt {
  const name = 'Whether it was followed';
  const settledBy = 'deviations written down, or ruled out, on every job';
  const { before, after, estimates, likeForLike } = of.followed.changed;
  const { shares, upper } = likeForLike;
  if (shares === null)
    return doubt(
      name,
      'cannot-tell',
      `How many jobs deviated before and after is not recorded: ${likeForLike.reason}.`,
      settledBy,
    );
  const aimed = of.change.record?.deviations ?? [];
  const carry = aimed.length > 0 ? `one of ${listed(aimed.map(deviationSays))}` : 'a recorded deviation';
  const says = `${percent(before.withIt / before.told)} of ${count(before.told)} jobs before and ${percent(after.withIt / after.told)} of ${count(after.told)} after carry ${carry}`;
  const each = `; deviation by deviation, of what is told, ${percent(shares[0])} before and ${percent(shares[1])} after (difference ${pointsRange(estimates.prevalenceDifferenceLikeForLike)})`;
  const rarer = upper !== null && upper < 0;
  const claims = directionOf(of) === 'fewer';
  const so = rarer
    ? ': rarer than before'
    : claims
      ? ': not rarer beyond chance, so that something else may have changed'
      : ': not rarer beyond chance';
  return doubt(name, rarer ? 'holds' : claims ? 'fails' : 'cannot-tell', `${says}${each}${so}.`, settledBy);
}

/** `-3.1 to 1.2 points`. */
function pointsRange({ lower, upper }: Estimate): string {
  const points = (share: number | null) => (share === null ? 'not known' : (share * 100).toFixed(1));
  return `${points(lower)} to ${points(upper)} points`;
}

/** So many are named; the others are counted. */
const mostNamed = 3;

export function recordedAlike({ followed: { changed } }: JudgedLives): Doubt | null {
  if (changed.likeForLike.shares === null) return null;
  const name = 'Written down alike';
  const settledBy = 'the same sheet before and after';
  const { unlike } = changed;
  if (unlike.length === 0)
    return doubt(
      name,
      'holds',
      'No deviation is told of much more often, or less, on the jobs after than on those before.',
      settledBy,
    );
  const apart = ({ toldBefore, toldAfter }: Unlike) => Math.abs(toldAfter - toldBefore);
  const named = [...unlike]
    .sort((a, b) => apart(b) - apart(a))
    .slice(0, mostNamed)
    .map(
      ({ code, toldBefore, toldAfter }) => `${deviationSays(code)} on ${percent(toldBefore)} and ${percent(toldAfter)}`,
    );
  const more = unlike.length > mostNamed ? `, and ${unlike.length - mostNamed} more` : '';
  return doubt(
    name,
    'cannot-tell',
    `Not told of on as many jobs before and after: ${named.join('; ')}${more}. How often jobs are seen to deviate changes with that; whether it was followed is judged deviation by deviation, of what is told.`,
    settledBy,
  );
}
