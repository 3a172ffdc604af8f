import type { ColumnPart } from '../../../../shared/column-map.ts';
import { partClasses } from '../../../../shared/vocabulary.ts';
import { wordOf } from '../cell-words.ts';
import type { ColumnProfile } from './column-profile.ts';
import { wordMeaning } from './header-score.ts';

export interface PartFlags {
  readonly profiles: readonly ColumnProfile[];
  /** Each flag as a word of the list of replaced parts. */
  readonly parts: readonly ColumnPart[];
}

const partNamed = wordMeaning('replaced', partClasses);
const yesOrNo = wordMeaning('checked', ['yes', 'no']);
const mostTexts = 6;

/**
 * Columns that say of one part each whether it was replaced: `Seal` Y, `Bearings` N. A lone one may mean anything,
 * unless its header says so: `Seal renewed`.
 */
export function partFlags(profiles: readonly ColumnProfile[]): PartFlags | null {
  const flags = profiles.flatMap((profile) => {
    const part = partOfHeader(profile.header);
    return part !== null && isFlag(profile) ? [{ profile, means: part, part: flagPart(profile, part) }] : [];
  });
  if (flags.length < 2 && !flags.some(({ profile }) => saysReplaced(profile.header))) return null;
  // A part that no row of the sample had is one all the same, and is flagged as the others are.
  const texts = [...new Set(flags.flatMap(({ profile }) => profile.texts.map(([text]) => text)))];
  const blank = profiles.flatMap((profile) => {
    const named = profile.filled === 0 ? partOfHeader(profile.header) : null;
    const part = flags.some(({ means }) => means === named) ? null : named;
    const like = texts.map((text) => [text, 0] as const);
    return part === null ? [] : [{ profile, part: flagPart({ ...profile, texts: like }, part) }];
  });
  const all = [...flags, ...blank].sort((a, b) => a.profile.place - b.profile.place);
  return { profiles: all.map(({ profile }) => profile), parts: all.map(({ part }) => part) };
}

const replacedWords = 'replaced?|repl|installed|changed|renewed|r&r';
const saysReplaced = (header: string): boolean =>
  new RegExp(`(^|[^a-z])(${replacedWords})([^a-z]|$)`).test(wordOf(header).replaceAll('_', ' '));

function partOfHeader(header: string): string | null {
  const bare = wordOf(header)
    .replaceAll(/[_-]/g, ' ')
    .replaceAll(new RegExp(String.raw`\b(${replacedWords}|new|y n|y\/n)\b|[?()]`, 'g'), ' ')
    .replaceAll(/\s+/g, ' ')
    .trim();
  return partNamed(bare) ?? null;
}

const isFlag = ({ texts, filled }: ColumnProfile): boolean =>
  filled > 0 && texts.length <= mostTexts && texts.every(([text]) => yesOrNo(text) !== undefined);

function flagPart({ header, texts, blanks }: ColumnProfile, part: string): ColumnPart {
  const words = texts.map(([text]) => [wordOf(text), yesOrNo(text) === 'yes' ? part : ''] as const);
  return { header, words: Object.fromEntries([...words, ...blanks.map((text) => [text, ''] as const)]) };
}
