import { positionColumn } from '../../../../shared/column-map.ts';
import type { RecordColumn } from '../../../../shared/record-tables.ts';
import { wordOf } from '../cell-words.ts';
import { isBlankWord, type ColumnProfile } from './column-profile.ts';
import { headerPhrases, headerWords } from './header-words.ts';
import { tradeWords } from './trade-words.ts';

const phrases = new Map(
  Object.entries(headerPhrases).map(
    ([column, text]) => [column, text.split(', ').map((phrase) => new Set(headerWords(phrase)))] as const,
  ),
);

/** How well a header names a column of ours, 0 to 1: its own name, one of the phrases, or part of one. */
export function nameScore(header: string, column: string): number {
  if (wordOf(header) === column) return 1;
  const words = wordsOfHeader(header);
  if (words.size === 0) return 0;
  const known = phrases.get(column) ?? [new Set(headerWords(column))];
  return Math.max(0, ...known.map((phrase, rank) => likeness(words, phrase) - 0.01 * rank));
}

const unitWords = new Set(['km', 'mi', 'nm', 'lbft', 'ftlb', 'ftlbs', 'mm', 'thou']);

const remembered = new Map<string, ReadonlySet<string>>();

/** Words of a header without what stands in brackets and without its unit; headers are looked at once for every column of ours. */
function wordsOfHeader(header: string): ReadonlySet<string> {
  let words = remembered.get(header);
  if (words === undefined) {
    if (remembered.size > 2_000) remembered.clear();
    const told = headerWords(header.replaceAll(/[([][^)\]]*[)\]]/g, ' '));
    const named = told.filter((word) => !unitWords.has(word));
    // A unit names nothing, unless the header says nothing else: `Start odo km`, but `km`.
    remembered.set(header, (words = new Set(named.length > 0 ? named : told)));
  }
  return words;
}

function likeness(words: ReadonlySet<string>, phrase: ReadonlySet<string>): number {
  const common = [...phrase].filter((word) => words.has(word)).length;
  if (common === 0) return 0;
  const [header, told] = [common / words.size, common / phrase.size];
  if (told === 1) return 0.6 + 0.35 * header;
  return header === 1 ? 0.35 + 0.35 * told : 0.4 * Math.min(header, told);
}

/** How far the values can be what the column takes, 0 to 1. */
export function valueScore(profile: ColumnProfile, column: RecordColumn | typeof positionColumn): number {
  if (profile.filled === 0) return 0.5;
  if (column === positionColumn) return profile.places;
  switch (column.kind) {
    case 'date':
      return Math.max(profile.dates, profile.serials);
    case 'number':
    case 'integer':
      return column.name === 'leak' ? Math.max(profile.numbers, knownShare(profile, column)) : profile.numbers;
    case 'choice':
    case 'list':
      return column.choices === undefined ? notA(profile) : chosen(profile, column);
    case 'text':
      return /_id$|_key$/.test(column.name) || column.name === 'unit_id' ? 1 - profile.dates : notA(profile);
  }
}

/** Words may all be unknown ones of the shop; days and numbers are no words. */
function chosen(profile: ColumnProfile, column: RecordColumn): number {
  const known = knownShare(profile, column);
  return known === 0 && Math.max(profile.dates, profile.numbers) > 0.8 ? 0 : 0.4 + 0.6 * known;
}

/** Texts that are no days and no fractions may be any text. */
const notA = ({ dates }: ColumnProfile): number => 1 - dates;

/** Share of the filled cells whose words the trade's tables know for this column. */
export function knownShare({ texts }: ColumnProfile, { name, choices = [] }: RecordColumn): number {
  const meaning = wordMeaning(name, choices);
  let [all, known] = [0, 0];
  for (const [text, rows] of texts.slice(0, mostTexts)) {
    all += rows;
    if (meaning(text) !== undefined) known += rows;
  }
  return all === 0 ? 0 : known / all;
}

/** Words are few; where they are not, the commonest tell as much. */
const mostTexts = 60;

/** What a word of the trade means in a column; for lists each word may stand for itself. */
export function wordMeaning(column: string, choices: readonly string[]): (text: string) => string | undefined {
  const key = `${column} ${choices.join(' ')}`;
  const known = meanings.get(key) ?? meaningOf(column, choices);
  meanings.set(key, known);
  return known;
}

const meanings = new Map<string, (text: string) => string | undefined>();

function meaningOf(column: string, choices: readonly string[]): (text: string) => string | undefined {
  const words = tradeWords(column, choices);
  const patterns = [...words].filter(([word]) => word.includes('*') && /[a-z0-9]/.test(word));
  const tested = patterns.map(
    ([word, meant]) => [new RegExp(`^${word.split('*').map(escaped).join('.*')}$`, 's'), meant] as const,
  );
  return (text) => {
    const word = wordOf(text);
    return words.get(word) ?? (isBlankWord(text) ? undefined : tested.find(([pattern]) => pattern.test(word))?.[1]);
  };
}

const escaped = (text: string): string => text.replaceAll(/[.+?^${}()|[\]\\]/g, String.raw`\$&`);
