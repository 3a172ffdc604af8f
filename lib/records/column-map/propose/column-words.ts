import type { ColumnPart } from '../../../../shared/column-map.ts';
import type { RecordColumn } from '../../../../shared/record-tables.ts';
import { wordOf } from '../cell-words.ts';
import { isBlankWord, type ColumnProfile } from './column-profile.ts';
import { wordMeaning } from './header-score.ts';

export interface WordsFound {
  /** Their words that mean another of ours; those that are ours already need no saying. */
  readonly words: Record<string, string>;
  /** Words of theirs that the trade's tables do not know, each with its rows. */
  readonly unknown: readonly (readonly [word: string, rows: number])[];
}

/** Words kept one by one; beyond them a column is prose, and takes patterns only. */
const mostWords = 200;
export const listMarks = ',/+&|';

/** What the words of a column mean in a closed vocabulary of ours. */
export function wordsOf(profile: ColumnProfile, { name, kind, choices = [] }: RecordColumn): WordsFound {
  const meaning = wordMeaning(name, choices);
  const words: Record<string, string> = {};
  const unknown = new Map<string, number>();
  const own = new Set(choices);
  const take = (text: string, rows: number): void => {
    const word = wordOf(text);
    if (word === '' || own.has(word) || isBlankWord(text) || word in words) return;
    const meant = meaning(text);
    if (meant !== undefined) words[word] = meant;
    else unknown.set(word, (unknown.get(word) ?? 0) + rows);
  };
  // Said before the blanks of the file, which would take them for not known.
  for (const text of profile.blanks) {
    const meant = meaning(text);
    if (meant !== undefined) words[text] = meant;
  }
  for (const [text, rows] of profile.texts.slice(0, mostWords)) {
    if (kind !== 'list' || meaning(text) !== undefined) take(text, rows);
    else for (const word of listedWords(text, name)) take(word, rows);
  }
  return { words, unknown: [...unknown].sort((a, b) => b[1] - a[1]) };
}

/** Roles of axles are parted by spaces, too. */
const listedWords = (text: string, column: string): string[] =>
  text.split(column === 'axle_roles' ? /[;,\s]+/ : new RegExp(`[;${listMarks}]`)).map((word) => word.trim());

/** A part with its words, left out where there are none. */
export const partOf = (header: string, words: Record<string, string>): ColumnPart =>
  Object.keys(words).length > 0 ? { header, words } : { header };
