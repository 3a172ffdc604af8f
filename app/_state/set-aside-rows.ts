import type { SetAsideRow } from '../../shared/record-set.ts';
import { numberColumn, textColumn, type Engine } from '../../lib/engine/engine.ts';
import { identifier, sql, type Statement } from '../../lib/engine/statement.ts';

const row = identifier('row');

/** Rows set aside, in the order of their files, a page at a time. */
export const setAsideStatement = (offset: number, limit: number): Statement => sql`
select ${identifier('file')}, cast(${row} as double) as ${row}, ${identifier('column')}, ${identifier('value')}, reason, accepted, original
from set_aside order by ${identifier('file')}, ${row}, ${identifier('column')} limit ${limit} offset ${offset}`;

export async function setAsideRows(engine: Engine, offset: number, limit: number): Promise<SetAsideRow[]> {
  const result = await engine.query(setAsideStatement(offset, limit));
  const text = (name: string, index: number) => textColumn(result, name)[index] ?? '';
  const lines = numberColumn(result, 'row');
  return Array.from({ length: result.rows }, (_, index) => ({
    ...{
      file: text('file', index),
      row: lines[index] ?? 0,
      column: text('column', index),
      value: text('value', index),
    },
    ...{ reason: text('reason', index), accepted: text('accepted', index), original: text('original', index) },
  }));
}
