import type { Doubt } from '../../../shared/finding.ts';
import { doubt, failingFirst, failsIf } from '../doubts/doubt.ts';
import { fewFailures } from '../doubts/few-failures.ts';
import { setAsideRows } from '../doubts/set-aside-rows.ts';
import { estimatedMiles } from '../doubts/shares.ts';
import { vehicleClustering } from '../doubts/vehicle-clustering.ts';
import { shownLimits } from '../../../shared/finding.ts';
import { attributeName } from '../words/group-words.ts';
import { listed, percent, sentenceCase } from '../words/share-words.ts';
import { count, counted, range, ratioText } from '../words/wording.ts';
import { dayText } from './change-evidence.ts';
import { asFarWithoutChange, directionOf, leadingRatio, mostAsFar } from './change-verdict.ts';
import { arrivingDays } from './followed-lives.ts';
import type { JudgedLives } from './judged.ts';

export function changeDoubts(of: JudgedLives, event: string): Doubt[] {
  const { asking, evidence, contrast } = of;
  const estimated = evidence.rows.reduce((sum, row) => sum + (evidence.columns.estimated[row] as number), 0);
  const names = ['before', 'after', 'before, other shops', 'after, other shops'];
  const cells = [...contrast.changed, ...(contrast.others[0].lives > 0 ? contrast.others : [])];
  return failingFirst([
    fewFailures(
      cells.map(({ failures }, at) => ({ label: names[at] ?? '', failures })),
      event,
    ),
    writtenDown(of),
    badSpellDoubt(of),
    yardstick(of),
    otherShopsDoubt(of),
    wasItFollowed(of),
    recordedAlike(of),
    guardDoubt(of),
    agesInCommon(of),
    stillArriving(of),
    vehicleClustering(
      leadingRatio({ ...of, contrast: of.asSeen }).ratio.estimate,
      evidence.adjustment.cluster.levels.length,
    ),
    takenIntoAccount(of),
    asking.view.axis === 'months' ? null : estimatedMiles({ some: estimated, all: evidence.rows.length }),
    setAsideRows(asking.source.account),
    leftOut(of),
  ]);
}

function writtenDown({ change: { against, record, fingerprint, date } }: JudgedLives): Doubt {
  const name = 'Written down beforehand';
  const settledBy = 'a change written down before it is made, with what will count as success';
  if (record === null)
    return doubt(
      name,
      'cannot-tell',
      'Judged against a date given now. A date, a shop or an age chosen after a look at the numbers finds differences where there are none.',
      settledBy,
    );
  const says = `“${record.name}” was written down on ${record.writtenOn}, ${against === 'written down beforehand' ? 'before' : 'after'} the change of ${date}; its fingerprint is ${(fingerprint ?? '').slice(0, 12)}…`;
  return doubt(name, against === 'written down beforehand' ? 'holds' : 'cannot-tell', `${says}.`, settledBy);
}

function badSpellDoubt({ spell, withoutSpell, contrast, day }: JudgedLives): Doubt {
  const name = 'Picked after a bad spell';
  const settledBy = 'shops picked by lot, or a longer look at what came before';
  if (spell === null)
    return doubt(
      name,
      'cannot-tell',
      'Too few failures before the change to tell whether the last of it was unusual.',
      settledBy,
    );
  const seen = `What was fitted from ${dayText(spell.from)} to ${dayText(day - 1)} failed ${ratioText(spell.ratio)} times as often as what the same shops fitted before (${count(spell.observed)} failures, ${spell.expected.toFixed(1)} expected)`;
  if (spell.standing === 'not above')
    return doubt(name, 'holds', `${seen}: not well above their own average.`, settledBy);
  const other = withoutSpell ? leading(withoutSpell) : null;
  const without =
    other === null
      ? 'without it no ratio can be given'
      : `without it the ratio is ${ratioText(other.value as number)} ${range(shownLimits(other), ratioText)} instead of ${ratioText(leading(contrast)?.value ?? NaN)}`;
  const says = `${seen}. A shop picked after such a spell gets better by itself; ${without}, and the limits shown reach over both.`;
  return doubt(name, spell.standing === 'well above' ? 'fails' : 'cannot-tell', says, settledBy);
}

const leading = ({ againstOthers, afterBefore }: JudgedLives['contrast']) =>
  againstOthers.estimate.value !== null
    ? againstOthers.estimate
    : afterBefore.estimate.value !== null
      ? afterBefore.estimate
      : null;

function yardstick(of: JudgedLives): Doubt {
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

function otherShopsDoubt({ contrast, alsoChanged }: JudgedLives): Doubt {
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
  const without =
    alsoChanged.length === 0 ? '' : ` Left out, having changed by a record of their own: ${listed(alsoChanged)}.`;
  const detail =
    value === null
      ? 'Their own ratio of after to before cannot be given.'
      : `There failures after are ${ratioText(value)} times those before ${range(shownLimits(afterBeforeOthers.estimate), ratioText)}; the answer is over and above that.${without}`;
  return doubt(name, value === null ? 'cannot-tell' : 'holds', detail, settledBy);
}

const othersReason = (others: JudgedLives['contrast']['others'], reason: string | undefined): string =>
  others[0].lives === 0 ? 'no other shop fitted anything before' : (reason ?? 'no ratio');

function wasItFollowed(of: JudgedLives): Doubt {
  const name = 'Whether it was followed';
  const settledBy = 'deviations written down, or ruled out, on every job';
  const { before, after, estimates } = of.followed.changed;
  const moved = estimates.prevalenceDifference;
  if (moved.value === null)
    return doubt(
      name,
      'cannot-tell',
      `How many jobs deviated before and after is not recorded: ${moved.reason}.`,
      settledBy,
    );
  const says = `${percent(before.withIt / before.told)} of ${count(before.told)} jobs before and ${percent(after.withIt / after.told)} of ${count(after.told)} after carry ${of.change.record && of.change.record.deviations.length > 0 ? `one of ${listed(of.change.record.deviations.map((code) => code.replaceAll('-', ' ')))}` : 'a recorded deviation'}`;
  const rarer = moved.upper !== null && moved.upper < 0;
  const claims = directionOf(of) === 'fewer';
  const so = rarer
    ? ': rarer than before'
    : claims
      ? ': not rarer beyond chance, so that something else may have changed'
      : ': not rarer beyond chance';
  return doubt(name, rarer ? 'holds' : claims ? 'fails' : 'cannot-tell', `${says}${so}.`, settledBy);
}

/** Told apart by this much, the two shares are of unlike records. */
const mostRecordedApart = 0.1;

function recordedAlike({ followed }: JudgedLives): Doubt | null {
  const [before, after] = followed.changed.recorded;
  if (before == null || after == null) return null;
  const apart = Math.abs(after - before) > mostRecordedApart;
  const says = `Of what could be told of deviations, ${percent(before)} is written down before and ${percent(after)} after`;
  return doubt(
    'Written down alike',
    apart ? 'cannot-tell' : 'holds',
    `${says}${apart ? ': how often they are seen may have changed with the writing' : ''}.`,
    'the same sheet before and after',
  );
}

function guardDoubt({ guards }: JudgedLives): Doubt {
  const name = 'What must not get worse';
  const worse = guards.filter(({ ratio }) => (shownLimits(ratio.estimate).lower ?? 0) > 1);
  const told = guards.filter(({ ratio }) => ratio.estimate.value !== null);
  const says = guards.map(({ name: what, cohorts: [before, after], ratio: { estimate } }) => {
    const times =
      estimate.value === null
        ? 'too few for a ratio'
        : `${ratioText(estimate.value)} times ${range(shownLimits(estimate), ratioText)}`;
    return `${what} ${count(before.failures)} in ${counted(before.lives, 'life', 'lives')} before, ${count(after.failures)} in ${counted(after.lives, 'life', 'lives')} after: ${times}`;
  });
  const state = worse.length > 0 ? 'fails' : told.length < guards.length ? 'cannot-tell' : 'holds';
  return doubt(
    name,
    state,
    `${sentenceCase(says.join('; '))}.`,
    'more lives followed for longer; each hot hub looked at by itself',
  );
}

function agesInCommon({ contrast: { ages }, asking: { words } }: JudgedLives): Doubt {
  const settledBy = 'waiting until what was fitted after is as old';
  if (ages === null)
    return doubt(
      'Ages in common',
      'fails',
      'Before and after have no age at which ten lives of each are at risk.',
      settledBy,
    );
  return doubt(
    'Ages in common',
    'holds',
    `Compared from ${words.age(ages.from)} to ${words.age(ages.to)} since installation, which both reach with ten lives at risk; what happens to older parts is not told.`,
    settledBy,
  );
}

function stillArriving({ evidence }: JudgedLives): Doubt {
  const untold = evidence.exitDays.some(Number.isNaN);
  const says = `Failures of the last ${arrivingDays} days may not be in the records yet`;
  return untold
    ? doubt(
        'Records still arriving',
        'cannot-tell',
        `${says}, and the lives opened tell no months, so that what was watched then could not be left out.`,
        'lives rebuilt from records, or with months',
      )
    : doubt(
        'Records still arriving',
        'holds',
        `${says}: lives are followed to ${dayText(evidence.followedTo)}.`,
        `waiting ${arrivingDays} days`,
      );
}

function takenIntoAccount({ evidence: { adjustment } }: JudgedLives): Doubt {
  const columns = [...adjustment.strataOf, ...Object.keys(adjustment.covariates)].map(attributeName);
  const lead = `Like for like in age, ${listed(columns)}; the year only against other shops; other differences are not known`;
  return doubt(
    'Taken into account',
    'holds',
    `${[lead, ...adjustment.said].map(sentenceCase).join('. ')}.`,
    'records of what else the work differs in',
  );
}

function leftOut({ evidence: { leftOut: out } }: JudgedLives): Doubt | null {
  const lives = (number: number) => counted(number, 'life', 'lives');
  const parts = [
    ...(out.notReplacement > 0 ? [`${lives(out.notReplacement)} that no job in these records began`] : []),
    ...(out.unknownStart > 0 ? [`${lives(out.unknownStart)} of unknown start`] : []),
    ...(out.noDay > 0 ? [`${lives(out.noDay)} without a day of installation`] : []),
    ...(out.notWatched > 0 ? [`${lives(out.notWatched)} watched for none of their age`] : []),
    ...(out.arriving > 0 ? [`${lives(out.arriving)} watched only in the last ${arrivingDays} days`] : []),
    ...(out.estimated > 0 ? [`${lives(out.estimated)} of estimated miles, as chosen`] : []),
  ];
  return parts.length === 0
    ? null
    : doubt(
        'Left out',
        'holds',
        `${sentenceCase(parts.join('; '))} are not compared.`,
        'a question that needs no job: how often, or how long',
      );
}
