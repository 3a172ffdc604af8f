import { deviations } from '../../shared/deviations.ts';
import type { View } from '../../shared/view.ts';
import { firmnessRule } from './firmness.ts';
import type { GroupKey } from './group-keys.ts';
import { deviationOf, groupWords } from './words/group-words.ts';
import type { Limits } from './words/wording.ts';

/** The code of the deviation a view is cut by, where that is its only cut; else null. */
export const comparedDeviation = (view: View): string | null =>
  view.by.length === 1 ? deviationOf(view.by[0] as string) : null;

/** Groups whose values are all known; what is not known is shown beside them, not compared with them. */
export const knownGroups = (groups: readonly GroupKey[]): number[] =>
  groups.flatMap(({ by }, index) => (Object.values(by).includes('unknown') ? [] : [index]));

/** Events of the known groups (of all, where none is known), for the doubt about few of them. */
export function eventsOfKnown(groups: readonly GroupKey[], events: ArrayLike<number>) {
  const known = knownGroups(groups);
  const places = known.length > 0 ? known : groups.map((_, index) => index);
  // `yes` alone says nothing; `where the seal was cocked or not seated` does.
  const says = (group: GroupKey | undefined) => (group ? groupWords(group) || group.label : '');
  return places.map((index) => ({ label: says(groups[index]), failures: events[index] as number }));
}

/** Known groups with enough events for a ratio. */
export const comparable = (groups: readonly GroupKey[], events: ArrayLike<number>): number[] =>
  knownGroups(groups).filter((index) => (events[index] as number) >= firmnessRule.thinFailures);

export interface Pair {
  readonly compared: number;
  readonly reference: number;
  /** Pairs that could have been chosen; a p-value is multiplied by it (Bonferroni). */
  readonly pairs: number;
}

/**
 * The two groups an answer sets against each other: of a deviation `yes` against `no`; else the
 * worst against the best by `score` (larger = worse) of those with events enough.
 */
export function chosenPair(
  view: View,
  groups: readonly GroupKey[],
  events: ArrayLike<number>,
  score: ArrayLike<number>,
): Pair | null {
  const candidates = comparable(groups, events);
  if (candidates.length < 2) return null;
  const sorted = [...candidates].sort((a, b) => (score[b] as number) - (score[a] as number));
  const [worst, best] = [sorted[0] as number, sorted[sorted.length - 1] as number];
  if (comparedDeviation(view) === null)
    return { compared: worst, reference: best, pairs: (candidates.length * (candidates.length - 1)) / 2 };
  const at = (value: string) => candidates.find((index) => groups[index]?.label === value);
  const [yes, no] = [at('yes'), at('no')];
  return yes === undefined || no === undefined ? null : { compared: yes, reference: no, pairs: 1 };
}

/** The group every other is set against in the table: `no` of a deviation, else the first known one shown. */
export function referenceGroup(view: View, groups: readonly GroupKey[]): number {
  if (comparedDeviation(view) !== null) return groups.findIndex(({ label }) => label === 'no');
  return knownGroups(groups)[0] ?? -1;
}

/** The pair compared, with its ratio; `pValue` is corrected and the larger of the model's and the robust one. */
export interface Comparison extends Pair {
  readonly ratio: Limits & { readonly value: number | null };
  readonly pValue: number | null;
  /** Before the correction for the number compared. */
  readonly rawPValue: number | null;
}

export const corrected = (pValue: number | null, pairs: number): number | null =>
  pValue === null ? null : Math.min(1, pValue * pairs);

/** The larger of two p-values, of which either may be missing. */
export const largerPValue = (model: number | null, robust: number | null | undefined): number | null =>
  model === null ? (robust ?? null) : Math.max(model, robust ?? 0);

export const isSafetyCritical = (code: string | null): boolean =>
  deviations.some((deviation) => deviation.code === code && deviation.safetyCritical);
