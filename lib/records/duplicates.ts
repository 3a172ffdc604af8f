import { recordTables, type TableName } from '../../shared/record-tables.ts';
import { numberColumn, type Engine } from '../engine/engine.ts';
import { identifier, joinSql, sql } from '../engine/statement.ts';
import type { Staging } from './staging.ts';

/** Tables whose rows have an id of their own, in their first column. */
export const identifiedTables: readonly TableName[] = ['units', 'services', 'inspections', 'failures'];

/**
 * Sets aside every row whose id an earlier row has: earlier by the order of the files, then by line.
 * The suspects, found by hash while reading, hold the rows as they stood in their files.
 * @param names of the files, at the place of their number
 * @returns how many rows were set aside, by file number
 */
export async function setAsideDuplicates(
  engine: Engine,
  staging: Staging,
  table: TableName,
  names: readonly string[],
  signal?: AbortSignal,
): Promise<Map<number, number>> {
  const idName = recordTables[table][0]!.name;
  const id = identifier(idName);
  const rows = staging.table(table);
  const suspects = staging.table('suspects');
  const twice = staging.table('twice');
  const suspected = await engine.query(sql`select 1 from ${rows} semi join ${suspects} using (file_id, line) limit 1`);
  if (suspected.rows === 0) return new Map();
  await engine.run(
    sql`create or replace table ${twice} as
      select ${id} as id, file_id, line, first_value(file_id) over earlier as first_file,
        first_value(line) over earlier as first_line
      from ${rows} where ${id} in (select ${id} from ${rows} semi join ${suspects} using (file_id, line))
      window earlier as (partition by ${id} order by file_id, line)
      qualify row_number() over earlier > 1`,
    signal,
  );
  const named = sql`list_value(${joinSql(
    names.map((name) => sql`${name}`),
    ', ',
  )})[first_file + 1]`;
  await engine.run(
    sql`insert into ${staging.table('set_aside')}
      select file_id, line, ${idName}, id, 'the id is already used by ' || ${named} || ', row ' || first_line,
        'an id that no other row has', original
      from ${twice} join ${suspects} using (file_id, line)`,
    signal,
  );
  await engine.run(sql`delete from ${rows} where (file_id, line) in (select (file_id, line) from ${twice})`, signal);
  const counted = await engine.query(sql`select file_id, count(*) as n from ${twice} group by file_id`, signal);
  const counts = numberColumn(counted, 'n');
  return new Map([...numberColumn(counted, 'file_id')].map((fileId, index) => [fileId, counts[index] ?? 0]));
}
