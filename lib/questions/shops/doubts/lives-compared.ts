import type { Doubt } from '../../../../shared/finding.ts';
import { doubt, failsIf } from '../../doubts/doubt.ts';
import { inWords, percent, sentenceCase } from '../../words/share-words.ts';
import { count, counted } from '../../words/wording.ts';
import { immatureExpected, type Quarter } from '../quarters.ts';
import type { ShopsEvidence } from '../shops-evidence.ts';

/** Above these shares of lives the comparison may not be of what it seems. */
const most = { unknown: 0.1, late: 0.5 };

const lives = (number: number): string => counted(number, 'life', 'lives');

/** Jobs of no known shop are in the average and in no shop. */
export function notKnown({ groups, compared }: ShopsEvidence): Doubt | null {
  const place = groups.levels.indexOf('unknown');
  if (place < 0) return null;
  const unknown = groups.codes.reduce((sum, code) => sum + (code === place ? 1 : 0), 0);
  const share = unknown / groups.codes.length;
  const what = compared === 'shop' ? 'shop' : 'place';
  const detail = `Of ${percent(share)} of lives (${count(unknown)}) no ${what} is written down; they are in the average and in no ${what}.`;
  const name = compared === 'shop' ? 'Shop not known' : 'Place not known';
  return doubt(name, failsIf(share > most.unknown), detail, `the ${what} of those services`);
}

/** Lives fitted before the records began are compared from then on only. */
export function lateLives({ entry }: ShopsEvidence): Doubt | null {
  if (entry.length === 0) return null;
  const late = entry.reduce((sum, age) => sum + (age > 0 ? 1 : 0), 0);
  const share = late / entry.length;
  const detail =
    late === 0
      ? 'Every life was watched from its installation on.'
      : `${percent(share)} of lives began before the records and are compared from then on: how they did when young is not told.`;
  return doubt('Late entries', failsIf(share > most.late), detail, 'older service records');
}

/** Jobs done of late have not run long enough to fail. */
export function recentQuarters(quarters: readonly Quarter[]): Doubt | null {
  if (quarters.length === 0) return null;
  const settledBy = 'waiting until those lives have run';
  const young = quarters.filter(({ expected }) => expected < immatureExpected);
  if (young.length === 0)
    return doubt(
      'Few expected yet',
      'holds',
      'In every quarter of installation at least one failure is expected of each.',
      settledBy,
    );
  const some = young.reduce((sum, own) => sum + own.lives, 0);
  const detail = `In ${count(young.length)} of ${count(quarters.length)} quarters of installation, each by itself, less than one failure is expected yet (${lives(some)}): no trend can be read from these.`;
  return doubt('Few expected yet', 'cannot-tell', detail, settledBy);
}

export function leftOutLives({ leftOut, groups }: ShopsEvidence): Doubt | null {
  const parts = [
    ...(leftOut.estimated > 0 ? [`${lives(leftOut.estimated)} whose miles are estimated are left out, as chosen`] : []),
    ...(leftOut.notReplacement > 0
      ? [`${lives(leftOut.notReplacement)} that no job in these records began are not compared`]
      : []),
    ...(leftOut.unknownStart > 0 ? [`${lives(leftOut.unknownStart)} of unknown start are not compared`] : []),
    ...(leftOut.notWatched > 0 ? [`${lives(leftOut.notWatched)} were watched for none of their age`] : []),
    ...(groups.together > 0 ? [`the ${inWords(groups.together)} smallest stand together`] : []),
  ];
  if (parts.length === 0) return null;
  return doubt(
    'Left out',
    'holds',
    `${sentenceCase(parts.join('; '))}.`,
    'a question that needs no job: how often, or how long',
  );
}
