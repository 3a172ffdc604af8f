import { columnMapSchema, fedTables, passedOver, type ColumnMap } from '../../../shared/column-map.ts';
import type { TableName } from '../../../shared/record-tables.ts';
import { cellColumnOf } from '../cell-column-of.ts';
import { CellText } from '../cell-text.ts';
import { RowBatch } from '../row-batch.ts';
import { problemOf } from '../cell-problem.ts';
import { fittingMap, namedHeaders, type FittedMap } from './fitting-map.ts';
import { makersOf, MappedRow } from './mapped-row.ts';
import { feedsOf, mappedHeader } from './mapped-rows.ts';
import { sampleRow, type Sample } from './sample.ts';
import type { UnitRoles } from './unit-roles.ts';

/** Rows of the sample that would be set aside for one reason, with an example. */
export interface AsideReason {
  readonly reason: string;
  readonly value: string;
  /** The line of the first of them, as the sample numbers its lines. */
  readonly line: number;
  readonly rows: number;
}

/** What becomes of one of our columns. */
export interface ColumnPreview {
  readonly table: TableName;
  readonly ours: string;
  readonly headers: readonly string[];
  /** What stands in the file, and what it becomes; null = why it would set its row aside. */
  readonly samples: readonly { readonly theirs: string; readonly ours: string | null; readonly why: string | null }[];
  readonly reasons: readonly AsideReason[];
  readonly rows: number;
}

export interface MapPreview {
  /** Rows of the sample that feed each table, and those of them that would be kept. */
  readonly tables: readonly { readonly table: TableName; readonly read: number; readonly kept: number }[];
  readonly columns: readonly ColumnPreview[];
  /** Rows that feed no table: passed over, and in question. */
  readonly passedOver: number;
  readonly undecided: readonly AsideReason[];
  readonly rows: number;
  readonly setAside: number;
  /** Headers of the file that nothing reads, each with some of its values. */
  readonly unused: readonly { readonly header: string; readonly values: readonly string[] }[];
}

const mostSamples = 4;
const mostReasons = 5;

/** Tries a map on the rows of a sample, as an import would, or says why it is none yet. */
export function previewMap(
  draft: ColumnMap,
  { headers, rows, lines, broken }: Sample,
  roles: UnitRoles,
): MapPreview | string {
  const parsed = columnMapSchema.safeParse(draft);
  if (!parsed.success) return parsed.error.issues.map(({ message }) => message).join('; ');
  const fitted = fittingMap([{ ...parsed.data, recognised: { headers: namedHeaders(headers) } }], '', headers);
  if (fitted === null || typeof fitted === 'string') return fitted ?? 'reads none of these columns';
  const tried = new Map(fedTables(draft.feeds).map((table) => [table, new TriedTable(table, fitted, headers, roles)]));
  const told = feedsOf(fitted.map, fitted.places);
  const cut = sampleRow();
  let passed = 0;
  const undecided = new Reasons();
  const by = 'by' in fitted.map.feeds ? (fitted.places.get(fitted.map.feeds.by) ?? 0) : 0;
  for (const [index, row] of rows.entries()) {
    const feeds = told(cut.at(row));
    if (typeof feeds === 'string') tried.get(feeds)?.take(row, lines[index] ?? 0);
    else if (feeds.reason.startsWith(passedOver.replace('-', ' '))) passed++;
    else undecided.add(feeds.reason, row[by] ?? '', lines[index] ?? 0);
  }
  const tables = [...tried.values()].map(({ table, read, kept }) => ({ table, read, kept }));
  const kept = tables.reduce((sum, { kept }) => sum + kept, 0);
  return {
    tables,
    columns: [...tried.values()].flatMap((table) => table.columns(rows)),
    passedOver: passed,
    undecided: undecided.listed(),
    rows: rows.length + broken,
    setAside: rows.length + broken - kept,
    unused: unusedIn(fitted, headers, rows, [...tried.values()]),
  };
}

function unusedIn(
  { map, places }: FittedMap,
  headers: readonly string[],
  rows: readonly (readonly string[])[],
  tried: readonly TriedTable[],
): MapPreview['unused'] {
  const used = new Set(tried.flatMap(({ row }) => row.makers.flatMap(({ cells }) => cells)));
  if ('by' in map.feeds) used.add(places.get(map.feeds.by) ?? -1);
  return namedHeaders(headers).flatMap((header, place) =>
    used.has(place) ? [] : [{ header, values: distinct(rows, place).slice(0, mostSamples) }],
  );
}

const distinct = (rows: readonly (readonly string[])[], place: number): string[] => [
  ...new Set(rows.slice(0, 500).flatMap((row) => (row[place]?.trim() ? [row[place].trim()] : []))),
];

/** Counts rows by reason. */
class Reasons {
  readonly #found = new Map<string, { value: string; line: number; rows: number }>();
  rows = 0;

  add(reason: string, value: string, line: number): void {
    this.rows++;
    const known = this.#found.get(reason);
    if (known) known.rows++;
    else this.#found.set(reason, { value, line, rows: 1 });
  }

  /** The commonest first. */
  listed(): AsideReason[] {
    return [...this.#found]
      .map(([reason, found]) => ({ reason, ...found }))
      .sort((a, b) => b.rows - a.rows)
      .slice(0, mostReasons);
  }
}

/** One table as an import would fill it, without keeping anything. */
class TriedTable {
  read = 0;
  kept = 0;
  readonly row: MappedRow;
  readonly #batch: RowBatch;
  readonly #cut = sampleRow();
  readonly #reasons = new Map<string, Reasons>();
  readonly #rows: (readonly string[])[] = [];

  constructor(
    readonly table: TableName,
    { map, places }: FittedMap,
    headers: readonly string[],
    roles: UnitRoles,
  ) {
    this.row = new MappedRow(makersOf(table, map, places, roles));
    const names = namedHeaders(headers);
    this.#batch = new RowBatch(0, mappedHeader(names, this.row.makers, [], names.length));
  }

  take(row: readonly string[], line: number): void {
    this.read++;
    this.#rows.push(row);
    const mapped = this.row.of(this.#cut.at(row));
    const problem = this.#batch.write(mapped, line);
    if (this.#batch.full) this.#batch.taken();
    if (!problem) {
      this.kept++;
      return;
    }
    const reasons = this.#reasons.get(problem.column.name) ?? new Reasons();
    this.#reasons.set(problem.column.name, reasons);
    const value = mapped.shown(problem.cell);
    reasons.add(mapped.fault(problem.cell) ?? problemOf(problem.column, value), value, line);
  }

  columns(all: readonly (readonly string[])[]): ColumnPreview[] {
    const rows = this.#rows.length > 0 ? this.#rows : all;
    return this.row.makers.map(({ column, headers }, index) => {
      const reasons = this.#reasons.get(column.name);
      const samples = this.#samplesOf(index, rows);
      return {
        table: this.table,
        ours: column.name,
        headers,
        samples,
        reasons: reasons?.listed() ?? [],
        rows: reasons?.rows ?? 0,
      };
    });
  }

  #samplesOf(index: number, rows: readonly (readonly string[])[]): ColumnPreview['samples'] {
    const { column } = this.row.makers[index]!;
    const trial = cellColumnOf(column, 1);
    const text = new CellText();
    const found = new Map<string, ColumnPreview['samples'][number]>();
    for (const row of rows) {
      if (found.size >= mostSamples) break;
      const mapped = this.row.of(this.#cut.at(row));
      // The side of a row is read together with its axle.
      if (column.name === 'side' && index > 0) mapped.cell(index - 1, text);
      const read = mapped.cell(index, text);
      const theirs = mapped.shown(index).trim();
      if (found.has(theirs) || (read && text.blank && !column.required)) continue;
      const ours = new TextDecoder().decode(text.bytes.subarray(text.start, text.end));
      const good = read && !text.blank && trial.write(0, text);
      const why = good ? null : (mapped.fault(index) ?? problemOf(column, theirs));
      found.set(theirs, { theirs, ours: good ? ours : null, why });
    }
    return [...found.values()];
  }
}
