import { shownLimits, type Estimate, type Group } from '../../../shared/finding.ts';
import type { View } from '../../../shared/view.ts';
import type { ComponentWords } from './component-words.ts';
import { emphasised, type Answer } from './emphasised.ts';
import { groupWords } from './group-words.ts';
import { percent } from './share-words.ts';
import { count, range, significant, type Wording } from './wording.ts';

export interface AheadAsked {
  readonly view: View;
  readonly words: Wording;
  readonly thing: ComponentWords;
  readonly running: number;
  readonly failures: number;
  readonly estimates: Readonly<Record<string, Estimate>>;
  readonly groups: readonly Group[];
  /** Median miles a day of the vehicles; null where none is known, or miles are asked for. */
  readonly pace: number | null;
  readonly highestChance: number;
}

/** `43`, `1,240`, `0.6`: expected counts to what they can be known by. */
const expectedText = (value: number): string => (value >= 10 ? count(Math.round(value)) : significant(value, 2));
const whole = (value: number): string => count(Math.round(value));
const limitsOf = (estimate: Estimate, write = whole): string => range(shownLimits(estimate), write);

/** What is coming? Failures, soaked linings and cost ahead, and where most. */
export function aheadAnswer(asked: AheadAsked): Answer {
  const { view, words, thing, running, failures, estimates } = asked;
  const total = estimates['expectedFailures'];
  if (!total || total.value === null)
    return emphasised(`**Cannot be told**: ${total?.reason ?? 'no running lives match this choice'}.`);
  const over =
    view.ahead === 'miles'
      ? words.miles(view.aheadMiles)
      : `${significant(view.aheadMonths, 3)} ${view.aheadMonths === 1 ? 'month' : 'months'}`;
  const soaked = estimates['expectedSoakedLinings'];
  const linings =
    soaked?.value == null ? '' : `, ${expectedText(soaked.value)} ${limitsOf(soaked)} of them soaking the lining`;
  const cost = estimates['expectedCost'];
  const money = (value: number) => significant(value, 2);
  const costs =
    cost?.value == null ? '' : `, at a cost of ${money(cost.value)} ${limitsOf(cost, money)} by the costs entered`;
  const many = `${expectedText(total.value)} ${thing.failure}${total.value === 1 ? '' : 's'}`;
  return emphasised(
    `Over the next ${over} **${many}** ${limitsOf(total)} are expected among ${count(running)} running ${thing.many}, had none been renewed${linings}${costs}. Told by ${count(failures)} ${thing.failure}s so far.`,
    mostSays(asked),
    paceSays(asked),
    `The highest chance of any one is ${percent(asked.highestChance)}: no list clears the others.`,
  );
}

function mostSays({ groups, view }: AheadAsked): string {
  if (view.by.length === 0 || groups.length < 2) return '';
  const expected = ({ estimates }: Group) => estimates['expectedFailures']?.value ?? 0;
  const [first] = [...groups].sort((a, b) => expected(b) - expected(a));
  if (!first) return '';
  const estimate = first.estimates['expectedFailures'] as Estimate;
  return ` Most ${groupWords(first)}: ${expectedText(expected(first))} ${limitsOf(estimate)} in ${count(first.lives)}.`;
}

const paceSays = ({ pace, words }: AheadAsked): string =>
  pace === null ? '' : ` Each vehicle runs on at its own recent pace, half of them ${words.miles(pace)} a day or less.`;
