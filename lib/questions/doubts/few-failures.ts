import type { Doubt } from '../../../shared/finding.ts';
import { firmnessRule } from '../firmness.ts';
import { inWords, listed } from '../words/share-words.ts';
import { count, counted } from '../words/wording.ts';
import { doubt } from './doubt.ts';

export interface GroupFailures {
  readonly label: string;
  readonly failures: number;
}

const onlyWords = (failures: number, event: string): string =>
  failures === 0
    ? `There are no ${event}s.`
    : `There ${failures === 1 ? 'is' : 'are'} only ${counted(failures, event)}.`;

/** Fails where a group has too few events to lean on (under 15), and says which have too few to compare (under 5). */
export function fewFailures(groups: readonly GroupFailures[], event: string): Doubt {
  const settledBy = 'more lives followed for longer';
  const few = groups.filter(({ failures }) => failures < firmnessRule.fairFailures);
  if (few.length === 0) {
    const least = Math.min(...groups.map(({ failures }) => failures));
    const each = groups.length === 1 ? counted(least, event) : `at least ${counted(least, event)} in each group`;
    return doubt('Few failures', 'holds', `There are ${each}.`, settledBy);
  }
  const none = few.filter(({ failures }) => failures < firmnessRule.thinFailures);
  const say = (some: readonly GroupFailures[]) =>
    some.length > 6
      ? `${inWords(some.length)} groups`
      : listed(
          some.map(({ label, failures }) => (groups.length === 1 ? count(failures) : `${label} (${count(failures)})`)),
        );
  const detail =
    groups.length === 1
      ? onlyWords(few[0]?.failures ?? 0, event)
      : `Fewer than ${firmnessRule.fairFailures} ${event}s: ${say(few)}.${none.length > 0 ? ` Groups under ${firmnessRule.thinFailures} are shown and not compared.` : ''}`;
  return doubt('Few failures', 'fails', detail, settledBy);
}
