import { fedTables, passedOver, type ColumnMap } from '../../../shared/column-map.ts';
import { recordTables, type TableName } from '../../../shared/record-tables.ts';
import type { CutRow } from '../cut-row.ts';
import type { FileRows } from '../file-rows.ts';
import type { Header } from '../header.ts';
import type { RowSink } from '../row-sink.ts';
import { textOfCell, type CellMaker } from './cell-maker.ts';
import { wordChange } from './cell-words.ts';
import { headersUsed, namedHeaders, type FittedMap } from './fitting-map.ts';
import { makersOf, MappedRow } from './mapped-row.ts';
import type { UnitRoles } from './unit-roles.ts';

/** Opens the rows of a table for cells of ours, each at its own place; null for rows that feed no table. */
export type OpenTable = (table: TableName | null, header: Header) => FileRows;

interface MappedTable {
  readonly rows: FileRows;
  readonly row: MappedRow;
}

/** Where a row goes: to a table, or aside with the reason. */
export type RowFeeds = TableName | { readonly reason: string };

/** Rows of a file on their way to the tables that a map feeds. */
export class MappedRows implements RowSink {
  readonly width: number;
  readonly #tables = new Map<TableName, MappedTable>();
  readonly #all: FileRows[] = [];
  /** Takes what feeds no table; where one table takes all rows, it does. */
  readonly #rest: FileRows;
  readonly #feeds: (row: CutRow) => RowFeeds;
  /** The column that tells the table. */
  readonly #by: { readonly header: string; readonly cell: number; readonly accepted: string };

  constructor(headers: readonly string[], { map, places }: FittedMap, roles: UnitRoles, open: OpenTable) {
    const names = namedHeaders(headers);
    this.width = names.length;
    const used = new Set(headersUsed(map).map((header) => places.get(header)));
    const unused = names.filter((_, place) => !used.has(place));
    for (const table of fedTables(map.feeds)) {
      const makers = makersOf(table, map, places, roles);
      const rows = open(table, mappedHeader(names, makers, unused, this.width));
      this.#tables.set(table, { rows, row: new MappedRow(makers) });
      this.#all.push(rows);
    }
    const [only] = this.#all;
    if ('table' in map.feeds && only) this.#rest = only;
    else this.#all.push((this.#rest = open(null, { headers: names, columns: [], unused: [], width: this.width })));
    this.#feeds = feedsOf(map, places);
    this.#by = byColumn(map, places);
  }

  async begin(): Promise<this> {
    for (const rows of this.#all) await rows.begin();
    return this;
  }

  row(cut: CutRow, line: number): void {
    const feeds = this.#feeds(cut);
    if (typeof feeds !== 'string') {
      const { header, cell, accepted } = this.#by;
      this.#rest.put(line, header, cut.shown(cell), feeds.reason, accepted, cut.original());
      return;
    }
    const { rows, row } = this.#tables.get(feeds)!;
    rows.row(row.of(cut), line);
  }

  broken(line: number, reason: string, accepted: string, original: string): void {
    this.#rest.broken(line, reason, accepted, original);
  }

  get full(): boolean {
    return this.#all.some(({ full }) => full);
  }

  async send(): Promise<void> {
    for (const rows of this.#all) if (rows.full) await rows.send();
  }

  async finish(): Promise<void> {
    for (const rows of this.#all) await rows.finish();
  }

  /** Our columns with cells that could not be read and count as not known, each with how many. */
  leftBlank(): { readonly table: TableName; readonly column: string; readonly cells: number }[] {
    return [...this.#tables].flatMap(([table, { row }]) =>
      row.makers.flatMap(({ column, leftBlank }) =>
        leftBlank > 0 ? [{ table, column: column.name, cells: leftBlank }] : [],
      ),
    );
  }
}

/** Our own header behind a map: every column at the place of its maker. */
export const mappedHeader = (
  headers: readonly string[],
  makers: readonly CellMaker[],
  unused: readonly string[],
  width: number,
): Header => ({ headers, columns: makers.map(({ column }, cell) => ({ column, cell })), unused, width });

function byColumn({ feeds }: ColumnMap, places: ReadonlyMap<string, number>) {
  if ('table' in feeds) return { header: '', cell: 0, accepted: '' };
  const words = Object.entries(feeds.words).flatMap(([word, table]) => (table === passedOver ? [] : [word]));
  const accepted = `a word that the column map knows to feed a table: ${words.slice(0, 30).join(', ')}`;
  return { header: feeds.by, cell: places.get(feeds.by)!, accepted };
}

/** Tells the table of a row. */
export function feedsOf({ feeds }: ColumnMap, places: ReadonlyMap<string, number>): (row: CutRow) => RowFeeds {
  if ('table' in feeds) return () => feeds.table;
  const { by, words, others } = feeds;
  const cell = places.get(by)!;
  const change = wordChange(words);
  const known = new Set<string>(Object.keys(recordTables));
  const remembered = new Map<string, RowFeeds>();
  const told = (text: string): RowFeeds => {
    const meant = change(text) ?? others;
    if (meant === passedOver) return { reason: 'passed over, as the column map says of this word' };
    return known.has(meant) ? (meant as TableName) : { reason: 'does not say which table the row feeds' };
  };
  return (row) => {
    const text = textOfCell(row, cell) ?? '';
    let feeds = remembered.get(text);
    if (feeds === undefined && remembered.size < 10_000) remembered.set(text, (feeds = told(text)));
    return feeds ?? told(text);
  };
}
