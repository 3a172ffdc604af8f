import { horizonOf } from '../../../shared/view.ts';
import { curveFrom, shownLimits, type Estimate, type Group } from '../../../shared/finding.ts';
import { rateName } from '../age-axis.ts';
import { comparedDeviation, type Comparison } from '../comparison.ts';
import { chanceWords } from './chance-words.ts';
import { countsBehind, missingSide, withKnownValues } from './counted-words.ts';
import { emphasised, type Answer } from './emphasised.ts';
import { groupWords } from './group-words.ts';
import type { SealLifeAnswer } from './seal-life-asked.ts';
import { sealLifeOfOne } from './seal-life-one.ts';
import { inWords, listed, oneIn, percent, percentRange, sentenceCase } from './share-words.ts';
import { counted } from './wording.ts';

/** How long they last, in one or two sentences of the trade. */
export function sealLifeAnswer(asked: SealLifeAnswer): Answer {
  const { view, groups, comparison } = asked;
  const [only] = groups;
  if (!only || groups.every(({ lives }) => lives === 0)) return emphasised('**No lives** match this choice.');
  if (view.by.length === 0) return emphasised(sealLifeOfOne(asked, only));
  if (!comparison) return emphasised(tooFewToCompare(asked));
  return emphasised(deviationAnswer(asked, comparison) ?? comparedGroups(asked, comparison));
}

function tooFewToCompare({ view, groups, thing }: SealLifeAnswer): string {
  const known = withKnownValues(groups);
  const shown = known.length > 0 ? known : groups;
  const say = shown
    .slice(0, 3)
    .map(
      (group) =>
        `${counted(group.failures, thing.failure)} among ${counted(group.lives, thing.one, thing.many)} ${groupWords(group)}`,
    );
  const more = shown.length > 3 ? `; ${inWords(shown.length - 3)} more in the table` : '';
  return `**Too few to compare**: ${listed(say)}${more}.${comparedDeviation(view) === null ? '' : missingSide(groups)}`;
}

/** The group in words; where its curve does not start at installation, of whom it tells. */
function told({ words }: SealLifeAnswer, group: Group): string {
  const start = curveFrom(group) ?? 0;
  return start > 0 ? `${groupWords(group)}, of those that reached ${words.age(start)}` : groupWords(group);
}

const byHorizon = (group: Group): Estimate => group.estimates['failedByHorizonHadNoneBeenRenewed'] as Estimate;

/** A deviation: how many had failed by the horizon with it and without it; null where a curve falls short. */
function deviationAnswer(asked: SealLifeAnswer, comparison: Comparison): string | null {
  const { groups, words, thing, view } = asked;
  if (comparedDeviation(view) === null) return null;
  const [yes, no] = [groups[comparison.compared] as Group, groups[comparison.reference] as Group];
  const [withIt, without] = [byHorizon(yes), byHorizon(no)];
  if (withIt.value === null || without.value === null) return null;
  const first = `**${oneIn(withIt.value, thing.one) ?? `${percent(withIt.value)} of ${thing.many}`}** had ${thing.failed} by ${words.age(horizonOf(view))} ${percentRange(shownLimits(withIt), withIt.value)}`;
  const second = `**${oneIn(without.value) ?? percent(without.value)}** ${percentRange(shownLimits(without), without.value)}`;
  const behind = countsBehind([yes.failures, no.failures], thing.failure);
  return `${sentenceCase(told(asked, yes))}, ${first}; ${told(asked, no)}, ${second}. ${chanceWords(comparison, behind)}`;
}

/** Groups from the shortest life to the longest; of more than four only the ends. */
function comparedGroups(asked: SealLifeAnswer, comparison: Comparison): string {
  const { groups, worstFirst } = asked;
  const ends = [comparison.compared, comparison.reference];
  const named = (worstFirst.length <= 4 ? worstFirst : ends).map((index) => groups[index] as Group);
  const said = saidNumber(asked, named);
  const value = (group: Group) => group.estimates[said.name]?.value ?? 0;
  const sorted = [...named].sort((a, b) => (said.worst === 'least' ? value(a) - value(b) : value(b) - value(a)));
  const between = worstFirst.length - named.length;
  const rest = between > 0 ? `; ${inWords(between)} ${between === 1 ? 'group lies' : 'groups lie'} between` : '';
  const behind = countsBehind(
    sorted.map(({ failures }) => failures),
    asked.thing.failure,
  );
  const list = listed(sorted.map((group, index) => eachGroup(asked, said, group, index === 0)));
  return `${sentenceCase(`${said.lead} ${list}`)}${rest}. ${chanceWords(comparison, behind)}`;
}

/** The number a sentence says of each group, and how it is written. */
interface SaidNumber {
  readonly name: string;
  readonly worst: 'least' | 'most';
  readonly lead: string;
  /** Stands before each number. */
  readonly before: string;
  readonly write: (value: number) => string;
  readonly range: (estimate: Estimate) => string;
}

/** The age of one in ten, else the share by the horizon, else failures per mile: the first that every group has. */
function saidNumber({ words, thing, view }: SealLifeAnswer, named: readonly Group[]): SaidNumber {
  const all = (name: string) => named.every((group) => group.estimates[name]?.value != null);
  if (all('b10Life'))
    return {
      ...{ name: 'b10Life', worst: 'least', lead: `**one ${thing.one} in ten** has ${thing.failed}`, before: 'by ' },
      ...{ write: words.age, range: (one) => words.ageRange(shownLimits(one)) },
    };
  if (all('failedByHorizonHadNoneBeenRenewed'))
    return {
      ...{ name: 'failedByHorizonHadNoneBeenRenewed', worst: 'most', before: '' },
      lead: `by ${words.age(horizonOf(view))} there had ${thing.failed}`,
      ...{ write: percent, range: (one) => percentRange(shownLimits(one), one.value ?? 0) },
    };
  return {
    ...{ name: rateName('failures', view.axis), worst: 'most', before: '' },
    lead: `${thing.failure}s ${words.per}:`,
    ...{ write: words.rate, range: (one) => words.rateRange(shownLimits(one)) },
  };
}

function eachGroup(asked: SealLifeAnswer, said: SaidNumber, group: Group, strong: boolean): string {
  const estimate = group.estimates[said.name] as Estimate;
  const number = said.write(estimate.value ?? 0);
  return `${said.before}${strong ? `**${number}**` : number} ${told(asked, group)} ${said.range(estimate)}`;
}
