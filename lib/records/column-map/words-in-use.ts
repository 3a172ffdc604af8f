import { fedTables, type ColumnMap, type ColumnPart } from '../../../shared/column-map.ts';
import { recordTables, type RecordColumn, type TableName } from '../../../shared/record-tables.ts';
import { partedBySpaces } from '../list-cells.ts';
import { blanksOf, wordChange, wordOf } from './cell-words.ts';
import { namedHeaders } from './fitting-map.ts';
import { feedsOf } from './mapped-rows.ts';
import { sampleRow, type Sample } from './sample.ts';

/** A word of the file as it stands there, its rows, and what it means of ours: '' = not known, null = nothing. */
export interface WordInUse {
  readonly word: string;
  readonly rows: number;
  readonly meant: string | null;
}

/** The words of one of the file's columns behind one of ours, commonest first. */
export interface WordsInUse {
  /** Null for the column that tells which table a row feeds. */
  readonly table: TableName | null;
  readonly ours: string;
  readonly header: string;
  /** What its words can mean. */
  readonly choices: readonly string[];
  readonly words: readonly WordInUse[];
  /** Different words beyond those listed. */
  readonly more: number;
}

const mostWords = 60;

/** What the words of a sample mean by a map, wherever ours are a closed vocabulary. */
export function wordsInUse(map: ColumnMap, sample: Sample): WordsInUse[] {
  const names = namedHeaders(sample.headers);
  const places = new Map(names.map((name, place) => [name, place]));
  if ('by' in map.feeds && !places.has(map.feeds.by)) return [];
  const told = feedsOf(map, places);
  const cut = sampleRow();
  return [
    ...tellingWords(map, sample, places),
    ...fedTables(map.feeds).flatMap((table) => {
      const rows = 'by' in map.feeds ? sample.rows.filter((row) => told(cut.at(row)) === table) : sample.rows;
      const columns = new Map<string, RecordColumn>(recordTables[table].map((column) => [column.name, column]));
      return (map.tables[table] ?? []).flatMap(({ ours, from = [], partedBy = '' }) => {
        const column = columns.get(ours);
        const choices = column && (column.choices ?? (column.kind === 'integer' ? numbersOf(column) : undefined));
        if (!column || !choices) return [];
        const marks = column.kind === 'list' ? `;${partedBy}${partedBySpaces(column) ? ' ' : ''}` : '';
        return from.flatMap((part) => {
          const place = places.get(part.header);
          if (place === undefined) return [];
          return [
            { table, ours, header: part.header, choices, ...counted(part, map, { place, marks, choices }, rows) },
          ];
        });
      });
    }),
  ];
}

const numbersOf = ({ minimum = 0, maximum = 0 }: RecordColumn): string[] =>
  Array.from({ length: maximum - minimum + 1 }, (_, index) => String(minimum + index));

interface Looked {
  readonly place: number;
  /** Characters that part the words of a cell. */
  readonly marks: string;
  readonly choices: readonly string[];
}

function counted(
  { words }: ColumnPart,
  { blanks }: ColumnMap,
  { place, marks, choices }: Looked,
  rows: readonly (readonly string[])[],
): Pick<WordsInUse, 'words' | 'more'> {
  const change = wordChange(words);
  const blank = blanksOf(blanks);
  const own = new Set(choices);
  const found = new Map<string, { word: string; rows: number }>();
  for (const row of rows) {
    const cell = (row[place] ?? '').trim();
    if (cell === '') continue;
    for (const word of change(cell) !== undefined || marks === '' ? [cell] : partedBy(cell, marks)) {
      const known = found.get(wordOf(word));
      if (known) known.rows++;
      else found.set(wordOf(word), { word, rows: 1 });
    }
  }
  return listed(
    [...found.values()],
    (word) => change(word) ?? (own.has(wordOf(word)) ? wordOf(word) : blank(word) ? '' : null),
  );
}

const partedBy = (cell: string, marks: string): string[] => {
  const words: string[] = [''];
  for (const character of cell) {
    if (marks.includes(character)) words.push('');
    else words.push(`${words.pop() ?? ''}${character}`);
  }
  return words.map((word) => word.trim()).filter(Boolean);
};

function listed(
  found: readonly { readonly word: string; readonly rows: number }[],
  meant: (word: string) => string | null,
): Pick<WordsInUse, 'words' | 'more'> {
  const words = found.map(({ word, rows }) => ({ word, rows, meant: meant(word) }));
  // Whatever is not understood comes first: it is what somebody has to look at.
  words.sort((a, b) => Number(b.meant === null) - Number(a.meant === null) || b.rows - a.rows);
  return { words: words.slice(0, mostWords), more: Math.max(0, words.length - mostWords) };
}

/** The words that tell which table a row feeds. */
function tellingWords({ feeds }: ColumnMap, { rows }: Sample, places: ReadonlyMap<string, number>): WordsInUse[] {
  if ('table' in feeds) return [];
  const change = wordChange(feeds.words);
  const place = places.get(feeds.by)!;
  const found = new Map<string, { word: string; rows: number }>();
  for (const row of rows) {
    const word = (row[place] ?? '').trim();
    const known = found.get(wordOf(word));
    if (known) known.rows++;
    else found.set(wordOf(word), { word, rows: 1 });
  }
  return [
    {
      table: null,
      ours: 'feeds',
      header: feeds.by,
      choices: [],
      ...listed([...found.values()], (word) => change(word) ?? null),
    },
  ];
}
