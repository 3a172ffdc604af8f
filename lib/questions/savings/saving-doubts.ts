import type { Doubt } from '../../../shared/finding.ts';
import { doubt, failingFirst, failsIf } from '../doubts/doubt.ts';
import { fewFailures } from '../doubts/few-failures.ts';
import { setAsideRows } from '../doubts/set-aside-rows.ts';
import { estimatedMiles } from '../doubts/shares.ts';
import { failureCostSays } from '../words/failure-cost-says.ts';
import { attributeName } from '../words/group-words.ts';
import { listed, percent, sentenceCase } from '../words/share-words.ts';
import { count, counted } from '../words/wording.ts';
import { deviationSays } from '../words/deviation-says.ts';
import { carrying, type SavingOf } from './saving-groups.ts';

export function savingDoubts(of: SavingOf, event: string): Doubt[] {
  const { asking, lives, plan } = of;
  const { adjustment } = lives.causes;
  return failingFirst([
    plan.steps.length > 0
      ? fewFailures(
          plan.steps.map(({ deviation }) => ({
            label: deviationSays(deviation.code),
            failures: carrying(lives, [deviation]).failures,
          })),
          event,
        )
      : null,
    assumption(of),
    chosenByNumbers(of),
    lowestOfMany(of),
    costsEntered(of, event),
    notKnown(of),
    watchedFarEnough(of),
    doubt(
      'Taken into account',
      'holds',
      `${sentenceCase(`like for like in age, ${listed([...adjustment.strataOf, ...Object.keys(adjustment.covariates)].map(attributeName))} and the other deviations told`)}. ${adjustment.said.map((said) => `${sentenceCase(said)}.`).join(' ')}`.trim(),
      'records of what else the work differs in',
    ),
    asking.view.axis === 'months' ? null : estimatedMiles({ some: lives.estimated, all: lives.causes.rows.length }),
    setAsideRows(asking.source.account),
    leftOut(of),
  ]);
}

const assumption = ({ plan }: SavingOf): Doubt | null =>
  plan.steps.length === 0
    ? null
    : doubt(
        'What goes with it would go with it',
        'cannot-tell',
        'The saving is worked out as if what goes with the deviation would go away with it. A hurried job may carry something else that nobody wrote down, and would then still fail.',
        'the change made at some shops and not at others, written down beforehand and judged after',
      );

function chosenByNumbers({ plan }: SavingOf): Doubt | null {
  if (!plan.byNumbers || plan.steps.length === 0) return null;
  return doubt(
    'Chosen by their numbers',
    'cannot-tell',
    `No deviation was named, so those whose limits lie above 1 were taken (${plan.steps.length}). Of many compared, those that stand out stand out too far: the saving is likely too large.`,
    'naming those that can be changed, whatever their numbers',
  );
}

function lowestOfMany({ plan }: SavingOf): Doubt | null {
  const best = plan.steps.flatMap(({ to, best: own }) => (to === 'best-shop' && own ? [own] : []));
  if (best.length === 0) return null;
  const thin = best.filter(({ withIt }) => withIt < 5).length;
  return doubt(
    'The lowest of several shops',
    thin > 0 ? 'cannot-tell' : 'holds',
    `The levels fallen to are the lowest of up to ${count(Math.max(...best.map(({ of }) => of)))} shops, one of which is lowest by chance or by writing less down${thin > 0 ? `; ${thin === 1 ? 'one rests' : `${count(thin)} rest`} on fewer than five jobs with the deviation` : ''}.`,
    'a level that a trial has reached',
  );
}

function costsEntered({ cost }: SavingOf, event: string): Doubt | null {
  if (cost === null) return null;
  return doubt(
    'Costs entered',
    'cannot-tell',
    `The money is the failures fewer times a cost that is entered, not read from the records, and taken as known: ${failureCostSays(cost, event)}. Nothing is taken off for working better, nor for the renewal that a part spared still comes to.`,
    'what failures cost this fleet, and what working better costs',
  );
}

/** Where most of the record is silent, shares and ratios speak of those who write. */
const mostUnknown = 0.5;

function notKnown({ plan }: SavingOf): Doubt | null {
  const shares = plan.steps.map(({ deviation, told }) => {
    const unknown = deviation.exposure.codes.reduce((sum, code) => sum + (code === 2 ? 1 : 0), 0);
    return { code: deviation.code, share: unknown / Math.max(1, unknown + told) };
  });
  const worst = shares.sort((a, b) => b.share - a.share)[0];
  if (!worst) return null;
  const says =
    worst.share === 0
      ? 'Every job says whether it carried them.'
      : `Jobs whose record does not tell stay as they are; most of them for “${deviationSays(worst.code)}”: ${percent(worst.share)}. What they would save is not counted.`;
  return doubt('Not known', failsIf(worst.share > mostUnknown), says, 'the missing column on the installation records');
}

function watchedFarEnough({ result, asking, lives }: SavingOf): Doubt | null {
  if (result === null) return null;
  const { watchedShare, counted: year } = result;
  const says =
    watchedShare === 1
      ? `Every shop’s lives were watched to ${asking.words.age(lives.horizon)}.`
      : `${percent(1 - watchedShare)} of lives are of shops that were not watched to ${asking.words.age(lives.horizon)} and are in the count of a year alone.`;
  const rests =
    year === null
      ? ''
      : ` The count of a year rests on ${counted(year.failures, 'failure')} in ${year.years.toFixed(1)} years.`;
  return doubt(
    'Watched to the horizon',
    failsIf(watchedShare < 0.5),
    `${says}${rests}`,
    'a shorter horizon, or waiting',
  );
}

function leftOut({ lives: { causes } }: SavingOf): Doubt | null {
  const { leftOut: out } = causes;
  const lives = (number: number) => counted(number, 'life', 'lives');
  const parts = [
    ...(out.notReplacement > 0 ? [`${lives(out.notReplacement)} that no job in these records began`] : []),
    ...(out.unknownStart > 0 ? [`${lives(out.unknownStart)} of unknown start`] : []),
    ...(out.notWatched > 0 ? [`${lives(out.notWatched)} watched for none of their age`] : []),
    ...(out.estimated > 0 ? [`${lives(out.estimated)} of estimated miles, as chosen`] : []),
  ];
  return parts.length === 0
    ? null
    : doubt(
        'Left out',
        'holds',
        `${sentenceCase(parts.join('; '))} are in no number here: no job could have been done otherwise.`,
        'a question that needs no job: how often',
      );
}
