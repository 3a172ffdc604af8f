import { briefFields } from '../../shared/brief-sections.ts';
import type { Brief } from '../../shared/brief.ts';
import type { Procedure } from '../../shared/procedure.ts';
import { specificationsFound } from './specification-check.ts';

/** A stretch of the engineer's own words that says more than records can, and what to write instead. */
export interface WordingWarning {
  /** The field, photo or finding it stands in, in the words shown. */
  readonly where: string;
  /** The field's name, or the id of the photo or finding. */
  readonly field: string;
  readonly found: string;
  readonly instead: string;
}

interface WordingRule {
  readonly pattern: RegExp;
  readonly instead: string;
}

const rules: readonly WordingRule[] = [
  {
    pattern: /\broot[- ]causes?\b/gi,
    instead:
      'Records alone never show a root cause. Write “goes with”, and put the mechanism and its physical evidence in section 8.',
  },
  {
    pattern: /\b(?:dis)?prov(?:e[sdn]?|ing)\b|\bproofs?\b/gi,
    instead: 'Records do not prove. Write “is consistent with”, or say what was seen at a teardown.',
  },
  {
    pattern:
      /\b(?:is|are|was|were|been)?\s?\bcaused\b(?: by)?|\bcaus(?:es|ing)\b|\b(?:leads?|led) to\b|\bresult(?:s|ed) in\b/gi,
    instead: 'Write “goes with” or “is associated with”: the records do not say what made it so.',
  },
  {
    pattern:
      /\b(?:at fault|(?:his|her|their|whose) fault|to blame|blam(?:e[sd]?|ing)|careless(?:ness|ly)?|negligen(?:t|ce|tly)|incompeten(?:t|ce)|sloppy|human error)\b/gi,
    instead: 'No number here is about a person. Name the step, the tool or the condition.',
  },
  {
    pattern:
      /\b(?:technicians?|mechanics?|fitters?|installers?|workers?|employees?|drivers?)\s+(?:\S+\s+)?(?:failed|forgot|neglected|ignored|skipped|rushed|did not|didn’t|didn't)\b/gi,
    instead: 'No number here is about a person. Write which step was recorded as left out, and in how many jobs.',
  },
  {
    pattern:
      /\b(?:safe(?:ly)?|cleared?|roadworthy|risk[- ]free|(?:zero|no) risk|fit (?:to drive|for service|for use))\b/gi,
    instead:
      'No statistic clears a wheel end for service. Write what was counted, over how many miles; a qualified inspector decides.',
  },
  {
    pattern: /\b(?:do(?:es)? not|don’t|don't|never|cannot|can’t|can't) (?:leak|fail)s?\b/gi,
    instead:
      'None seen is not none: with 0 in n the share may still be as high as 3 in n. Write the count and its bound.',
  },
  {
    pattern: /\b(?:complies|compliant|compliance with the (?:rules?|regulations?))\b/gi,
    instead: 'Records do not show compliance with a rule. Write what was measured, against which limit.',
  },
];

const percentage = /\b\d+(?:[.,]\d+)?\s?(?:%|per ?cent\b|percent\b)/gi;
/** What an interval looks like: two numbers with a dash or `to` or `and` between them, or limits named. */
const interval =
  /\d\s?(?:%|per ?cent)?\s?(?:–|—|-|to|and)\s?\d|\binterval\b|\blimits?\b|\bbounds?\b|\bat (?:least|most)\b|\bup to\b/i;
const percentageInstead =
  'Write the interval beside the percentage and the period it is of, as in “38 % (36 to 41), 2020 to 2024”.';

const sentences = (text: string): string[] => text.split(/(?<=[.!?])\s+|\n+/);

function percentagesAlone(text: string): string[] {
  return sentences(text)
    .filter((sentence) => !interval.test(sentence))
    .flatMap((sentence) => [...sentence.matchAll(percentage)].map(([found]) => found));
}

/**
 * What is to be looked at again in a text: each stretch once, with what to write instead.
 * @param procedures those in force: whether a limit is a specification hangs on who it comes from
 */
export function wordingWarnings(
  where: string,
  field: string,
  text: string,
  procedures: readonly Procedure[] = [],
): WordingWarning[] {
  const found = [
    ...rules.flatMap(({ pattern, instead }) =>
      [...text.matchAll(pattern)].map(([stretch]) => ({ found: stretch.trim(), instead })),
    ),
    ...percentagesAlone(text).map((stretch) => ({ found: stretch, instead: percentageInstead })),
    ...sentences(text).flatMap((sentence) => specificationsFound(sentence, procedures)),
  ];
  const once = new Map(found.map((warning) => [warning.found.toLowerCase(), warning]));
  return [...once.values()].map((warning) => ({ where, field, ...warning }));
}

/** Of everything the engineer wrote in a brief; sentences of findings are checked where they are made. */
export function briefWarnings(
  { title, words, photos, approvals, entries }: Brief,
  procedures: readonly Procedure[],
): WordingWarning[] {
  const of = (where: string, field: string, text: string) => wordingWarnings(where, field, text, procedures);
  return [
    ...of('Title', 'title', title),
    ...briefFields.flatMap(({ name, label }) => of(label, name, words[name] ?? '')),
    ...photos.flatMap(({ id, name, caption }) => of(`Photo ${name}`, id, caption)),
    ...entries.flatMap(({ id, finding, note }) => of(`Note to “${finding.title}”`, id, note)),
    ...approvals.flatMap(({ role, conditions }, at) => of(`Conditions of ${role}`, approvalField(at), conditions)),
  ];
}

/** The field of the conditions of an approval, by its place. */
export const approvalField = (at: number): string => `approval-${at + 1}`;
