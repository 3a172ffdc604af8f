import type { Group } from '../../../shared/finding.ts';
import { listed } from './share-words.ts';
import { count } from './wording.ts';

/** The count behind an answer: `41 and 212 leaks`, or the span of it over more than four groups. */
export function countsBehind(events: readonly number[], event: string): string {
  if (events.length === 1) return `${count(events[0] as number)} ${event}${events[0] === 1 ? '' : 's'}`;
  if (events.length <= 4) return `${listed(events.map(count))} ${event}s`;
  return `${count(Math.min(...events))} to ${count(Math.max(...events))} ${event}s a group`;
}

/** Groups whose every value is known. */
export const withKnownValues = (groups: readonly Group[]): Group[] =>
  groups.filter(({ by }) => !Object.values(by).includes('unknown'));

/** What a deviation comparison lacks, after "too few": a side that nobody recorded. */
export function missingSide(groups: readonly Group[]): string {
  const has = (label: string) => groups.some((group) => group.label === label);
  if (!has('yes')) return ' None is recorded with it.';
  return has('no') ? '' : ' None is recorded without it.';
}
