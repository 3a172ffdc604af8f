import { textColumn, numberColumn, type Engine } from '../engine/engine.ts';
import { sql } from '../engine/statement.ts';
import type { SetAsideRow } from '../../shared/record-set.ts';
import { csvLine } from './csv-writing.ts';

/** Some of the rows set aside, by file and row: they lie in that order, so that a page of millions is found at once. */
export async function setAsideRows(engine: Engine, offset: number, limit: number): Promise<SetAsideRow[]> {
  const result = await engine.query(sql`
    select file, cast("row" as double) as "row", "column", value, reason, accepted, original from set_aside
    where rowid >= ${offset}::bigint and rowid < ${offset + limit}::bigint order by rowid`);
  const text = (name: string, index: number) => textColumn(result, name)[index] ?? '';
  return Array.from({ length: result.rows }, (_, index) => ({
    file: text('file', index),
    row: numberColumn(result, 'row')[index]!,
    column: text('column', index),
    value: text('value', index),
    reason: text('reason', index),
    accepted: text('accepted', index),
    original: text('original', index),
  }));
}

const pageRows = 10_000;

/** All rows set aside as CSV, a page at a time. Cells that a spreadsheet would run are made harmless. */
export async function* setAsideCsv(engine: Engine): AsyncGenerator<string, void, undefined> {
  yield csvLine(['file', 'row', 'column', 'value', 'reason', 'accepted', 'original']);
  for (let offset = 0; ; offset += pageRows) {
    const rows = await setAsideRows(engine, offset, pageRows);
    yield rows
      .map((row) => csvLine([row.file, row.row, row.column, row.value, row.reason, row.accepted, row.original]))
      .join('');
    if (rows.length < pageRows) return;
  }
}
