import { mappableColumns, type ColumnMap, type ColumnPart, type ColumnSource } from '../../../shared/column-map.ts';
import { fedTables } from '../../../shared/column-map.ts';
import type { Paper } from './mess.ts';

/** A day is a day in a workbook, or in a file that has days of its own; elsewhere it is written in words. */
export interface DayCell {
  readonly day: string;
}
export type Cell = string | number | DayCell | null;

/** One of a list's columns: what stands in it, and what a reader would have to be told of it. */
export interface Column<Row> {
  readonly header: string;
  readonly cell: (row: Row) => Cell;
  /** Ours that it is, or is a part of; several where the list feeds several tables; none where nobody uses it. */
  readonly ours: readonly string[];
  readonly part?: Omit<ColumnPart, 'header'>;
  readonly source?: Omit<ColumnSource, 'ours' | 'from'>;
  /** It says the unit of the column before it. */
  readonly saysUnit?: boolean;
}

/** A list as a shop keeps it. */
export interface Listing<Row> {
  readonly columns: readonly Column<Row>[];
  readonly papers: readonly Paper<Row>[];
  readonly told: Omit<ColumnMap, 'version' | 'recognised' | 'tables'> & {
    /** The same for all rows. */
    readonly fixed?: Readonly<Record<string, string>>;
    /** Ids that the list does not have. */
    readonly made?: string;
    readonly fileName?: string;
  };
}

type Words = Readonly<Record<string, string>>;
const asList = (ours: string | readonly string[]): readonly string[] => (typeof ours === 'string' ? [ours] : ours);
type Source = Column<unknown>['source'];

export const column = <Row>(
  header: string,
  ours: string | readonly string[],
  cell: (row: Row) => Cell,
  source: Source = {},
): Column<Row> => ({ header, ours: asList(ours), cell, source });

/** A column that no table of ours has. */
export const unused = <Row>(header: string, cell: (row: Row) => Cell): Column<Row> => ({ header, ours: [], cell });

/** @param theirs their word for each of ours; several with a bar between them are written in turn */
export function worded<Row>(
  header: string,
  ours: string | readonly string[],
  theirs: Words,
  cell: (row: Row) => string | null,
  source: Source = {},
): Column<Row> {
  return {
    ...{ header, ours: asList(ours), source },
    part: { words: back(theirs) },
    cell: (row) => {
      const word = cell(row);
      return word === null ? null : inTurn(theirs[word] ?? word, JSON.stringify(row));
    },
  };
}

/** Lists of words with `mark` between them. */
export function listed<Row>(
  header: string,
  ours: string,
  theirs: Words,
  mark: string,
  cell: (row: Row) => string | null,
): Column<Row> {
  const parted = mark.trim();
  return {
    ...{ header, ours: [ours], part: { words: back(theirs) } },
    source: parted === ';' ? {} : { partedBy: parted },
    cell: (row) => {
      const words = cell(row);
      return words === null
        ? null
        : words
            .split(';')
            .map((word) => inTurn(theirs[word] ?? word, ''))
            .join(mark);
    },
  };
}

/** Whichever of several spellings; the same row is always written alike. */
export function inTurn(spellings: string, key: string): string {
  const all = spellings.split('|');
  if (all.length === 1) return spellings;
  let sum = 0;
  for (let at = 0; at < key.length; at++) sum = (sum * 31 + key.charCodeAt(at)) >>> 0;
  return all[sum % all.length] ?? spellings;
}

const back = (theirs: Words): Words =>
  Object.fromEntries(
    Object.entries(theirs).flatMap(([ours, words]) => words.split('|').map((word) => [word, ours] as const)),
  );

/** The map that somebody who knows the list would confirm. */
export function mapOf<Row>({ columns, told }: Listing<Row>): ColumnMap {
  const { fixed = {}, made, fileName, ...rest } = told;
  const tables = fedTables(told.feeds).map((table) => {
    const known = mappableColumns(table);
    const sources = new Map<string, ColumnSource>();
    let last: string | undefined;
    for (const { header, ours, part, source, saysUnit } of columns) {
      const before = last === undefined ? undefined : sources.get(last);
      if (saysUnit && before) {
        sources.set(before.ours, { ...before, unitFrom: { header, ...part } });
        continue;
      }
      const name = (last = ours.find((one) => known.includes(one)));
      if (name === undefined) continue;
      const from = [...(sources.get(name)?.from ?? []), { header, ...part }];
      sources.set(name, { ours: name, ...sources.get(name), ...source, from });
    }
    for (const [ours, value] of Object.entries(fixed))
      if (known.includes(ours)) sources.set(ours, { ours, fixed: value });
    if (made !== undefined) sources.set(made, { ours: made, made: 'of-row' });
    return [table, [...sources.values()]] as const;
  });
  return {
    version: 1,
    recognised: { headers: columns.map(({ header }) => header), ...(fileName === undefined ? {} : { fileName }) },
    ...rest,
    tables: Object.fromEntries(tables),
  };
}

/** Headers and cells as they come to stand in the file. */
export interface Grid {
  readonly headers: readonly string[];
  readonly rows: readonly { readonly cells: readonly Cell[]; readonly behind: string }[];
}

export const gridOf = <Row>({ columns, papers }: Listing<Row>): Grid => ({
  headers: columns.map(({ header }) => header),
  rows: papers.map(({ row, table, written, behind = '' }) => ({
    behind,
    cells: columns.map(({ header, cell }) => written[header] ?? (table === null ? null : cell(row))),
  })),
});
