import { shownLimits, type Group } from '../../../shared/finding.ts';
import type { View } from '../../../shared/view.ts';
import { firmnessRule } from '../firmness.ts';
import { emphasised, type Answer } from './emphasised.ts';
import { attributeName, valueWords } from './group-words.ts';
import { deviationWords } from './deviation-words.ts';
import { inWords, listed, sentenceCase } from './share-words.ts';
import { count, counted, range, ratioText } from './wording.ts';

export interface CausesAnswer {
  readonly view: View;
  /** In order. */
  readonly groups: readonly Group[];
  /** Lives in all. */
  readonly lives: number;
  /** What happens: `seals leak`, `wheel ends fail`. */
  readonly happens: string;
  readonly failure: string;
  /** Columns taken into account, and those held fixed. */
  readonly adjusted: readonly string[];
  readonly within: readonly string[];
}

/** Where a line's lives are: `where the nut was backed off`, `with seals of lot X`. */
function whereOf({ by }: Group): string {
  const [column, value] = Object.entries(by)[0] ?? ['', ''];
  return column === 'deviation' ? (deviationWords[value]?.yes ?? `with ${value}`) : valueWords(column, value);
}

const ratioOf = ({ estimates }: Group) => estimates['hazardRatio'];

/** Surely more or fewer, once the number compared is allowed for. */
const isTold = ({ counts }: Group): boolean => (counts['pCorrected'] ?? 1) < firmnessRule.firmPValue;

/** Which deviations go with shorter life, the first by its number, the rest by name. */
export function causesAnswer(asked: CausesAnswer): Answer {
  const { groups, lives, happens } = asked;
  if (lives === 0)
    return emphasised(
      '**No lives** match this choice: only parts fitted by a job in these records, with a known start, can be compared.',
    );
  const compared = groups.filter((group) => ratioOf(group)?.value != null);
  if (compared.length === 0) return emphasised(`**Too few to compare**: ${fewest(asked)}.`);
  const more = compared.filter((group) => isTold(group) && (ratioOf(group)?.value ?? 0) > 1);
  const fewer = compared.filter((group) => isTold(group) && (ratioOf(group)?.value ?? 0) < 1);
  const [first, ...others] = more;
  if (!first) return emphasised(noneTold(asked, compared), fewerWords(fewer), accountWords(asked));
  const rest =
    others.length === 0
      ? ''
      : `Also beyond chance: ${listed(others.slice(0, 4).map(briefly))}${beyond(others.length - 4)}.`;
  const head = `${happens} **${timesWords(first)} as often** ${limitsOf(first)} ${whereOf(first)}`;
  const counts = `${count(first.failures)} ${asked.failure}s with it and ${count(first.counts['failuresWithout'] ?? 0)} without; ${first.firmness}`;
  return emphasised(`${sentenceCase(head)}: ${counts}.`, rest, fewerWords(fewer), accountWords(asked));
}

const timesWords = (group: Group): string => `${ratioText(ratioOf(group)?.value ?? 1)} times`;
const limitsOf = (group: Group): string => {
  const estimate = ratioOf(group);
  return estimate ? range(shownLimits(estimate), ratioText) : '';
};
const briefly = (group: Group): string => `${whereOf(group)} ${timesWords(group)} ${limitsOf(group)}`;
const beyond = (more: number): string => (more > 0 ? ` and ${inWords(more)} more in the table` : '');

function fewerWords(groups: readonly Group[]): string {
  if (groups.length === 0) return '';
  return `Less often ${listed(groups.slice(0, 3).map(briefly))}${beyond(groups.length - 3)}: that is no proof that it does good.`;
}

function noneTold({ failure }: CausesAnswer, compared: readonly Group[]): string {
  const [nearest] = compared;
  const said = nearest ? ` Highest: ${briefly(nearest)}, which may be chance.` : '';
  return `**None** of ${count(compared.length)} compared goes with more ${failure}s beyond what chance would give among so many.${said}`;
}

function fewest({ groups, failure }: CausesAnswer): string {
  const some = groups.filter(({ lives }) => lives > 0).slice(0, 3);
  if (some.length === 0) return 'no deviation is recorded at any installation';
  return listed(some.map((group) => `${counted(group.failures, failure)} ${whereOf(group)}`));
}

/** What was taken into account, and what that is not. */
function accountWords({ adjusted, within }: CausesAnswer): string {
  const taken = adjusted.length === 0 ? '' : `${listed(adjusted.map(attributeName))} taken into account`;
  const held = within.length === 0 ? '' : `compared within the same ${listed(within.map(attributeName))}`;
  const all = [taken, held].filter((part) => part !== '').join(', ');
  return `${all === '' ? 'Nothing taken into account' : sentenceCase(all)}. This says what goes with what, not what made it so.`;
}
