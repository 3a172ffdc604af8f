import type { Finding, QuestionId } from '../../shared/finding.ts';
import type { UnitSystem } from '../../shared/units.ts';
import type { View } from '../../shared/view.ts';
import type { OpenRecordSet } from './record-sets.ts';

const mostKept = 60;
/** Answers already given, by record set: going back to a view shows it at once. */
const answers = new WeakMap<OpenRecordSet, Map<string, Finding>>();

const answersOf = (open: OpenRecordSet): Map<string, Finding> => {
  const kept = answers.get(open) ?? new Map<string, Finding>();
  answers.set(open, kept);
  return kept;
};

const keyOf = (question: QuestionId, view: View, units: UnitSystem): string => JSON.stringify([question, view, units]);

export function keepAnswer(
  open: OpenRecordSet,
  question: QuestionId,
  view: View,
  units: UnitSystem,
  finding: Finding,
): void {
  const kept = answersOf(open);
  kept.set(keyOf(question, view, units), finding);
  const oldest = kept.keys().next().value;
  if (kept.size > mostKept && oldest !== undefined) kept.delete(oldest);
}

export const keptAnswer = (open: OpenRecordSet, key: string): Finding | undefined => answersOf(open).get(key);

/** An answer kept that differs at most by which deviation it looks into; the latest such. */
export function standIn(open: OpenRecordSet, question: QuestionId, view: View, units: UnitSystem): Finding | undefined {
  const bare = (of: View) => keyOf(question, { ...of, deviation: null }, units);
  const wanted = bare(view);
  return [...answersOf(open)].findLast(
    ([key, { settings }]) => key.startsWith(JSON.stringify([question]).slice(0, -1)) && bare(settings) === wanted,
  )?.[1];
}
