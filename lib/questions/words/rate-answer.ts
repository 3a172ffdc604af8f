import { shownLimits, type Estimate, type Group } from '../../../shared/finding.ts';
import { modeWords } from '../../../shared/mode-words.ts';
import type { View } from '../../../shared/view.ts';
import { comparedDeviation, type Comparison } from '../comparison.ts';
import { firmnessRule } from '../firmness.ts';
import { chanceWords } from './chance-words.ts';
import { countsBehind, missingSide, withKnownValues } from './counted-words.ts';
import { emphasised, type Answer } from './emphasised.ts';
import { groupWords } from './group-words.ts';
import { inWords, listed, sentenceCase } from './share-words.ts';
import { counted, ratioText, type Wording } from './wording.ts';

/** What a rate counts: wheel-end failures, or soaked linings. */
export interface RateWords {
  /** `failure`, `soaked lining`. */
  readonly event: string;
  /** `wheel ends fail`, `linings are soaked`: followed by how often. */
  readonly happens: string;
  /** `wheel ends failed`, `linings were soaked`. */
  readonly happened: string;
}

export interface RateAnswer {
  readonly view: View;
  readonly words: Wording;
  readonly what: RateWords;
  readonly groups: readonly Group[];
  readonly comparison: Comparison | null;
  /** Events of each group. */
  readonly events: readonly number[];
  /** Name of the estimate that is the rate. */
  readonly rate: string;
}

/** `, counting only bearing failures`, where one mode is asked for. */
export const onlyMode = ({ mode }: View): string => (mode === null ? '' : `, counting only ${modeWords[mode]}`);

const rateOf = ({ rate }: RateAnswer, group: Group): Estimate => group.estimates[rate] as Estimate;

export const noLives = (groups: readonly Group[]): boolean => groups.every(({ lives }) => lives === 0);

/** Too few events for a rate of its own, or none: the count and its exact bound. */
export function fewEvents({ words, what, view, events }: RateAnswer, group: Group, rate: Estimate): string {
  const { upper } = shownLimits(rate);
  const watched = words.watched(group);
  if (upper === null) return `**No ${words.least}** was watched, so nothing can be said.`;
  if (events[0] === 0)
    return `**No ${what.event}** in ${watched}${onlyMode(view)}. That still allows one every ${words.every(upper)}.`;
  return `**Too few to say**: ${counted(events[0] as number, what.event)} in ${watched}${onlyMode(view)}, ${words.rate(rate.value ?? 0)} ${words.per} ${words.rateRange(shownLimits(rate))}.`;
}

/** Groups that cannot be compared: their counts, each with the exact bound of its rate. */
export function tooFewToCompare(asked: RateAnswer): string {
  const { view, groups, what, events, words } = asked;
  const known = withKnownValues(groups);
  const shown = known.length > 0 ? known : groups;
  const say = shown.slice(0, 3).map((group) => {
    const { upper } = shownLimits(rateOf(asked, group));
    const bound = upper === null ? '' : ` (at most ${words.rate(upper)})`;
    return `${counted(events[groups.indexOf(group)] as number, what.event)} ${groupWords(group)}${bound}`;
  });
  const more = shown.length > 3 ? `; ${inWords(shown.length - 3)} more in the table` : '';
  const missing = comparedDeviation(view) === null ? '' : missingSide(groups);
  return `**Too few to compare**: ${listed(say)}; bounds ${words.per}${onlyMode(view)}${more}.${missing}`;
}

/** `2.4 times as often`, `0.6 times as often`. */
const times = (value: number): string => `${ratioText(value)} times as often`;

const ratioRange = ({ ratio }: Comparison): string =>
  ratio.lower === null || ratio.upper === null ? '' : ` (${ratioText(ratio.lower)} to ${ratioText(ratio.upper)})`;

/** Groups by rate, the highest first: all of up to four, else the ends. */
export function comparedRates(asked: RateAnswer, comparison: Comparison): string {
  const { view, groups, events, what, words } = asked;
  const [worst, best] = [groups[comparison.compared] as Group, groups[comparison.reference] as Group];
  const at = (group: Group) => events[groups.indexOf(group)] as number;
  if (comparedDeviation(view) !== null && comparison.ratio.value !== null) {
    const behind = countsBehind([at(worst), at(best)], what.event);
    return `${what.happened} **${times(comparison.ratio.value)}**${ratioRange(comparison)} ${groupWords(worst)} as ${groupWords(best)}${onlyMode(view)}: ${words.rate(rateOf(asked, worst).value ?? 0)} and ${words.rate(rateOf(asked, best).value ?? 0)} ${words.per}. ${chanceWords(comparison, behind)}`;
  }
  const known = withKnownValues(groups)
    .filter((group) => at(group) >= firmnessRule.thinFailures)
    .sort((a, b) => (rateOf(asked, b).value ?? 0) - (rateOf(asked, a).value ?? 0));
  const named = known.length <= 4 ? known : [worst, best];
  const between = known.length - named.length;
  const rest = between > 0 ? `; ${inWords(between)} ${between === 1 ? 'group lies' : 'groups lie'} between` : '';
  const say = named.map((group, index) => {
    const found = rateOf(asked, group);
    const rate = `${words.rate(found.value ?? 0)}${index === 0 ? ' times' : ''} ${groupWords(group)}`;
    return `${index === 0 ? `**${rate}**` : rate} ${words.rateRange(shownLimits(found))}`;
  });
  return `${words.per}, ${what.happens} ${listed(say)}${onlyMode(view)}${rest}. ${chanceWords(comparison, countsBehind(named.map(at), what.event))}`;
}

/** The answer to "how often": the rate and the miles between, or how groups compare. */
export function rateAnswer(asked: RateAnswer): Answer {
  const { groups, view, words, what, events, comparison } = asked;
  const [only] = groups;
  if (!only || noLives(groups)) return emphasised('**No lives** match this choice.');
  if (view.by.length > 0)
    return emphasised(sentenceCase(comparison ? comparedRates(asked, comparison) : tooFewToCompare(asked)));
  const rate = rateOf(asked, only);
  if ((events[0] as number) < firmnessRule.thinFailures) return emphasised(fewEvents(asked, only, rate));
  const found = `**${words.rate(rate.value ?? 0)} ${what.event}s** ${words.per} ${words.rateRange(shownLimits(rate))}`;
  const watched = words.watched(only);
  const every = rate.value === null ? '' : `: one every **${words.every(rate.value)}**`;
  return emphasised(
    `${found}${every}, from ${counted(events[0] as number, what.event)} in ${watched}${onlyMode(view)}.`,
  );
}
