import type { Finding, Group } from '../../../shared/finding.ts';
import type { Counted } from '../../../lib/view/index.ts';

/** A count that stands in a sentence of a finding, and what it counts. */
export interface AnswerCount {
  readonly start: number;
  readonly end: number;
  /** Null: all that the finding tells of. */
  readonly group: Group | null;
  readonly counted: Counted;
}

/** Counts, in words such as `41 and 212 leaks` or `3 to 40 failures a group`, and the thing counted. */
const phrase =
  /(?<![\d.,])(\d[\d,]*(?:(?:, | and | to )\d[\d,]*)*) (soaked linings?|leaks?|failures?|lives|life|seals?|gaskets?|bearing sets?)\b/g;

function countedBy(noun: string, { question }: Finding): Counted | null {
  if (noun.startsWith('soaked')) return 'contaminated';
  // Of seal leaks the contamination page counts those that tell of the lining, which is no count of its own.
  if (/^(leak|failure)/.test(noun)) return question === 'contamination' && noun.startsWith('leak') ? null : 'failures';
  return 'lives';
}

const countOf = (group: Group, counted: Counted): number =>
  counted === 'lives' || counted === 'failures' ? group[counted] : (group.counts[counted] ?? 0);

/** The group whose count a number is; null for the whole; undefined where it could be several, or is none. */
function groupOf(number: number, counted: Counted, { groups, data }: Finding): Group | null | undefined {
  const same = groups.filter((group) => countOf(group, counted) === number);
  if (same.length === 1) return same[0];
  const whole = counted === 'lives' || counted === 'failures' ? data[counted] : null;
  return same.length === 0 && whole === number ? null : undefined;
}

/** The counts of a sentence that lives can be listed for; what is not sure is left alone. */
export function answerCounts(text: string, finding: Finding): AnswerCount[] {
  return [...text.matchAll(phrase)].flatMap((match) => {
    const counted = countedBy(match[2] ?? '', finding);
    if (counted === null) return [];
    return [...(match[1] ?? '').matchAll(/\d[\d,]*\d|\d/g)].flatMap((found) => {
      const number = Number(found[0].replaceAll(',', ''));
      const group = number === 0 ? undefined : groupOf(number, counted, finding);
      if (group === undefined) return [];
      const start = match.index + found.index;
      return [{ start, end: start + found[0].length, group, counted }];
    });
  });
}
