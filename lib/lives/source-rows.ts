import { recordTables, type ColumnKind, type TableName } from '../../shared/record-tables.ts';
import { numberColumn, textColumn, type Engine, type ResultTable } from '../engine/engine.ts';
import type { LifeFacts } from './life-facts.ts';
import { cellsStatement, filesStatement, sourceRowsStatement, type RowPlace } from './life-pages-sources.ts';

/** What a row did for a life. */
export type SourcePart =
  | 'vehicle'
  | 'fitted'
  | 'renewed'
  | 'failed'
  | 'report'
  | 'other'
  | 'other-repaired'
  | 'fastener'
  | 'touched'
  | 'seen'
  | 'dry'
  | 'damp'
  | 'leaking'
  | 'mate-failed'
  | 'mate-ordered'
  | 'miles';

/** A row of the records behind a life: where it stands, what it did, and its cells as they were read. */
export interface SourceRow extends RowPlace {
  readonly file: string;
  readonly table: TableName;
  readonly id: string;
  readonly part: SourcePart;
  /** Odometer; null where not known. */
  readonly miles: number | null;
  readonly quality: string;
  /** The rule by which its miles were filled in or put right; null where they stand as written. */
  readonly rule: string | null;
  readonly day: string | null;
  /** Filled cells, in the order of the record contract. */
  readonly cells: readonly (readonly [column: string, value: string])[];
}

const isNumber = (kind: ColumnKind): boolean => kind === 'number' || kind === 'integer';

const keyOf = (table: string, { fileId, line }: RowPlace): string => `${table} ${fileId} ${line}`;

function filled(table: TableName, result: ResultTable, into: Map<string, SourceRow['cells']>): void {
  const [files, lines] = [numberColumn(result, 'file_id'), numberColumn(result, 'line')];
  for (let row = 0; row < result.rows; row++) {
    const cells = recordTables[table].flatMap(({ name, kind }): [string, string][] => {
      const value = textColumn(result, name)[row] ?? null;
      // Whole numbers come from the engine with a point of their own.
      return value === null ? [] : [[name, isNumber(kind) ? value.replace(/\.0$/, '') : value]];
    });
    into.set(keyOf(table, { fileId: files[row] ?? 0, line: lines[row] ?? 0 }), cells);
  }
}

async function fileNames(engine: Engine): Promise<Map<number, string>> {
  const result = await engine.query(filesStatement);
  const names = textColumn(result, 'name');
  return new Map([...numberColumn(result, 'file_id')].map((fileId, row) => [fileId, names[row] ?? '']));
}

/** Every row of the records that a life stands on, by miles; a row that did two things comes once, for the first. */
export async function sourceRows(engine: Engine, facts: LifeFacts, signal?: AbortSignal): Promise<SourceRow[]> {
  const result = await engine.query(sourceRowsStatement(facts), signal);
  const names = await fileNames(engine);
  const text = (name: string, row: number) => textColumn(result, name)[row] ?? null;
  const found = Array.from({ length: result.rows }, (_, row) => ({
    ...{ table: text('table', row) as TableName, id: text('id', row) ?? '', part: text('part', row) as SourcePart },
    ...{ day: text('day', row), quality: text('quality', row) ?? 'measured', rule: text('rule', row) },
    ...{ miles: numberColumn(result, 'miles')[row] as number, fileId: numberColumn(result, 'file_id')[row] as number },
    line: numberColumn(result, 'line')[row] as number,
  }));
  const seen = new Set<string>();
  const rows = found.filter((row) => {
    const key = keyOf(row.table, row);
    return !seen.has(key) && seen.add(key);
  });
  const cells = new Map<string, SourceRow['cells']>();
  for (const table of new Set(rows.map((row) => row.table))) {
    const places = rows.filter((row) => row.table === table);
    filled(table, await engine.query(cellsStatement(table, places), signal), cells);
  }
  return rows.map((row) => ({
    ...row,
    miles: Number.isNaN(row.miles) ? null : row.miles,
    file: names.get(row.fileId) ?? '',
    cells: cells.get(keyOf(row.table, row)) ?? [],
  }));
}
