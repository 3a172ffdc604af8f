import { shownLimits, type Doubt } from '../../../shared/finding.ts';
import { doubt, failingFirst } from '../doubts/doubt.ts';
import { fewFailures } from '../doubts/few-failures.ts';
import { setAsideRows } from '../doubts/set-aside-rows.ts';
import { estimatedMiles } from '../doubts/shares.ts';
import { vehicleClustering } from '../doubts/vehicle-clustering.ts';
import { attributeName } from '../words/group-words.ts';
import { listed, sentenceCase } from '../words/share-words.ts';
import { count, counted, range, ratioText } from '../words/wording.ts';
import { dayText } from './change-evidence.ts';
import { leadingRatio } from './change-verdict.ts';
import { arrivingDays } from './followed-lives.ts';
import { recordedAlike, wasItFollowed } from './followed-doubts.ts';
import type { JudgedLives } from './judged.ts';
import { otherShopsDoubt, yardstick } from './other-shops-doubts.ts';

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
