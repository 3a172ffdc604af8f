import { shownLimits, type Estimate, type Group } from '../../../shared/finding.ts';
import { horizonOf, type View } from '../../../shared/view.ts';
import type { Seen } from '../detection/detection-group.ts';
import { withKnownValues } from './counted-words.ts';
import { emphasised, type Answer } from './emphasised.ts';
import { groupWords } from './group-words.ts';
import { ofHundred, percent, percentRange, range100, sentenceCase } from './share-words.ts';
import type { ComponentWords } from './component-words.ts';
import { count, counted, ratioText, type Wording } from './wording.ts';

export interface DetectionAsked {
  readonly view: View;
  readonly words: Wording;
  readonly thing: ComponentWords;
  readonly all: Seen;
  readonly groups: readonly Group[];
  readonly failures: number;
}

/** Are leaks found late? How many were found, how many may have begun, and what the looking alone makes of groups. */
export function detectionAnswer(asked: DetectionAsked): Answer {
  const { all, thing, failures } = asked;
  if (thing.failure !== 'leak')
    return emphasised('**Cannot be told of bearings**: no check in these records says when a bearing begins to fail.');
  if (all.places.length === 0) return emphasised('**No lives** of known start match this choice.');
  const said = bothWays(asked);
  if (said !== null) return emphasised(said, chanceSays(asked), loneLag(asked));
  const why = all.begun.byHorizon.reason ?? 'the curve of finding falls short of the horizon';
  return emphasised(
    `**Too few to tell**: ${counted(failures, 'leak')} in ${counted(all.places.length, 'life', 'lives')}. ${sentenceCase(why)}.`,
  );
}

function bothWays({ all, groups, thing, view, words, failures }: DetectionAsked): string | null {
  const [found, begun] = [all.found, all.begun.byHorizon];
  if (found.value === null || begun.value === null) return null;
  const horizon = words.age(horizonOf(view));
  // The rows beneath tell the groups; these are of all of them.
  const together = groups.length > 1 ? `, ${groups.length === 2 ? 'both' : 'all'} groups together,` : ',';
  return `Of 100 ${thing.many}${together} ${ofHundred(found.value).replace(' of 100', '')} ${range100(shownLimits(found))} are found leaking by ${horizon}; counted from when the leak can have begun, **${ofHundred(begun.value)}** ${range100(shownLimits(begun))} leak by then, told by ${counted(failures, 'leak')}.`;
}

function chanceSays({ all: { detection } }: DetectionAsked): string {
  const { delay, reason } = detection;
  if (!delay || reason !== null || delay.chance.value === null)
    return `How often a check sees a leak that is there cannot be told: ${reason ?? 'the record of checks does not say'}.`;
  const { value, lower, upper, robust } = delay.chance;
  const limits = {
    lower: Math.min(lower ?? 0, robust?.lower ?? 1),
    upper: Math.max(upper ?? 1, robust?.upper ?? 0),
  };
  return `A check sees a leak that is there ${percent(value)} of the time ${percentRange(limits, value)}, if every check is as good as every other.`;
}

const valueOf = (group: Group, name: string): number | null => group.estimates[name]?.value ?? null;

/** The two largest groups whose looking is known: how far it alone would set them apart. */
function loneLag({ groups, view, words }: DetectionAsked): string {
  const told = withKnownValues(groups)
    .filter((group) => valueOf(group, 'foundByHorizonLagAlone') !== null && (valueOf(group, 'foundByHorizon') ?? 0) > 0)
    .sort((a, b) => b.failures - a.failures)
    .slice(0, 2);
  const [reference, other] = told;
  if (!reference || !other) return '';
  const ratio = (name: string) => (valueOf(other, name) as number) / (valueOf(reference, name) as number);
  const [alone, shown] = [ratio('foundByHorizonLagAlone'), ratio('foundByHorizon')];
  return `Had leaks begun alike ${groupWords(reference)} and ${groupWords(other)}, the looking alone would show ${ratioText(alone)} times as many found ${groupWords(other)} by ${words.age(horizonOf(view))}; the records show ${ratioText(shown)} times.`;
}

/** Where within its interval each leak began no curve need assume: the least and the most begun by the horizon. */
export function spanSays(
  columns: Readonly<Record<string, readonly (number | null)[]>>,
  horizon: number,
  words: Wording,
): string {
  const [to, from, after] = [columns['to'] ?? [], columns['from'] ?? [], columns['survivalAfter'] ?? []];
  let [least, most] = [0, 0];
  after.forEach((survival, at) => {
    if ((to[at] ?? Infinity) <= horizon) least = 1 - (survival ?? 1);
    if ((from[at] ?? Infinity) < horizon && to[at] !== null) most = 1 - (survival ?? 1);
  });
  const [low, high] = [percent(least), percent(Math.max(least, most))];
  const span = low === high ? low : `between ${low} and ${high}`;
  return `No shape assumed, ${span} had begun to leak by ${words.age(horizon)}.`;
}

/** What a group is told of alone. */
export const detectionNotes = ({ detection: { delay } }: Seen, estimate: Estimate | undefined): string[] => [
  ...(delay && delay.reason === null
    ? [
        `Told by ${count(delay.lives)} lives watched from new: ${counted(delay.foundAtCheck, 'leak')} first seen by a check, ${count(delay.foundBetween)} found otherwise, ${count(delay.checks)} dry checks; of checks after a leak was seen, ${count(delay.seenAgain)} saw it and ${count(delay.missedAgain)} did not.`,
      ]
    : []),
  ...(estimate?.value == null && estimate?.reason
    ? [`What the looking alone would show cannot be told: ${estimate.reason}.`]
    : []),
];
