import { shownLimits, type Estimate, type Group } from '../../../shared/finding.ts';
import { horizonOf, type View } from '../../../shared/view.ts';
import type { GroupKey } from '../group-keys.ts';
import type { ComponentWords } from './component-words.ts';
import { emphasised, type Answer } from './emphasised.ts';
import { groupWords } from './group-words.ts';
import { inWords, percent, percentRange, sentenceCase } from './share-words.ts';
import { counted, range, ratioText, type Limits, type Wording } from './wording.ts';

/** How far the headline moves over the rules that give one. */
export interface Strip {
  readonly name: 'hazardRatio' | 'failedByHorizonHadNoneBeenRenewed';
  /** As the records are read. */
  readonly read: number;
  readonly readLimits: Limits;
  readonly least: Group;
  readonly most: Group;
  /** Rules with a value, the first among them. */
  readonly told: readonly Group[];
  /** Why the answer hangs on a choice; null where it does not. */
  readonly hangs: string | null;
}

const valueOf = (group: Group, name: Strip['name']): number => group.estimates[name]?.value as number;

/** Null where the records as read give no headline. */
export function stripOf(groups: readonly Group[], name: Strip['name']): Strip | null {
  const [first] = groups;
  const told = groups.filter(({ estimates }) => (estimates[name]?.value ?? null) !== null);
  if (!first || told[0] !== first || told.length < 2) return null;
  const sorted = [...told].sort((a, b) => valueOf(a, name) - valueOf(b, name));
  const [least, most] = [sorted[0] as Group, sorted.at(-1) as Group];
  const readLimits = shownLimits(first.estimates[name] as Estimate);
  return { name, read: valueOf(first, name), readLimits, least, most, told, hangs: hangsOn(name, first, least, most) };
}

const writerOf = (name: Strip['name']) => (name === 'hazardRatio' ? ratioText : (share: number) => percent(share));

function hangsOn(name: Strip['name'], first: Group, least: Group, most: Group): string | null {
  const [low, high] = [valueOf(least, name), valueOf(most, name)];
  if (name === 'hazardRatio' && low < 1 !== high < 1)
    return `The ratio is ${ratioText(low)} under “${least.label}” and ${ratioText(high)} under “${most.label}”: on the choice hangs which of the two is the worse.`;
  const { lower, upper } = shownLimits(first.estimates[name] as Estimate);
  const write = writerOf(name);
  const beyond = upper !== null && high > upper ? most : lower !== null && low < lower ? least : null;
  return beyond === null
    ? null
    : `Under “${beyond.label}” it is ${write(valueOf(beyond, name))}, outside the limits as the records are read ${range({ lower, upper }, write)}.`;
}

export interface RulesAsked {
  readonly view: View;
  readonly words: Wording;
  readonly thing: ComponentWords;
  readonly strip: Strip | null;
  readonly failures: number;
  readonly lives: number;
  readonly pair: readonly [GroupKey, GroupKey] | null;
  readonly compares: boolean;
}

/** Does the answer depend on a choice? The headline as read, and from where to where the rules take it. */
export function rulesAnswer(asked: RulesAsked): Answer {
  const { strip, failures, lives, thing, compares } = asked;
  if (lives === 0) return emphasised('**No lives** match this choice.');
  if (!strip)
    return emphasised(
      `**Too few to tell**: ${counted(failures, thing.failure)} in ${counted(lives, 'life', 'lives')} give ${compares ? 'no ratio of two groups' : 'no share by the horizon'} under more than one rule.`,
    );
  const { hangs, told, least, most, name } = strip;
  const write = writerOf(name);
  const [low, high] = [write(valueOf(least, name)), write(valueOf(most, name))];
  const others = told.length - 1;
  const rules = others === 1 ? 'one other defensible rule' : `${inWords(others)} other defensible rules`;
  const span = `${headline(asked, strip)}; with ${rules} it lies between ${low} and ${high}`;
  const settled = hangs === null ? '**No choice of rule moves it beyond its limits.**' : '**It depends on a choice.**';
  return emphasised(
    `${settled} ${span}.`,
    `The least is under “${least.label}”, the most under “${most.label}”. ${sentenceCase(counted(failures, thing.failure))}.`,
  );
}

function headline({ view, words, thing, pair, compares }: RulesAsked, { read, readLimits: limits }: Strip): string {
  if (pair) {
    const [compared, reference] = pair;
    return `As the records are read, ${thing.many} ${thing.failure === 'leak' ? 'leak' : 'fail'} **${ratioText(read)} times as often** ${range(limits, ratioText)} ${groupWords(compared)} as ${groupWords(reference)}, what else is known taken into account`;
  }
  const instead = compares
    ? 'The groups have too few failures to compare; of all together'
    : 'As the records are read,';
  return `${instead} **${percent(read)}** ${percentRange(limits, read)} of ${thing.many} would have ${thing.failed} by ${words.age(horizonOf(view))}, had none been renewed`;
}
