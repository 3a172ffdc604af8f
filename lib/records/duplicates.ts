import { recordTables, type TableName } from '../../shared/record-tables.ts';
import { numberColumn, type Engine } from '../engine/engine.ts';
import { identifier, joinSql, sql, type Statement } from '../engine/statement.ts';
import type { Place } from './original-rows.ts';
import type { Staging } from './staging.ts';

/** Reads rows again as they stand in their files. */
export type Originals = (places: readonly Place[]) => Promise<(place: Place) => string>;

/** Earlier by its day where rows have one, so that an order opened again counts on its first; then by file and line. */
const earlier = (staging: Staging, table: TableName): Statement =>
  staging.columns(table).includes('date') ? sql`date, file_id, line` : sql`file_id, line`;

/**
 * Ids of units that were handed on within the fleet: listed once by each shop that had them, all but
 * the last row saying so, each from another day on.
 */
const handedOn = (staging: Staging): Statement =>
  ['out_reason', 'in_service_date'].every((name) => staging.columns('units').includes(name))
    ? sql`select unit_id from ${staging.table('units')} group by unit_id
        having count(*) > 1 and count(distinct in_service_date) = count(*)
          and count(*) filter (out_reason is distinct from 'transferred') <= 1`
    : sql`select null::varchar where false`;

/**
 * Sets aside every row whose id an earlier row has. A unit handed on keeps all its rows.
 * The suspects, found by hash while reading, hold the rows as they stood in their files.
 * @param names of the files, at the place of their number
 * @param originals rows as they stand in their files, for those that were no suspects
 * @returns how many rows were set aside, by file number
 */
export async function setAsideDuplicates(
  engine: Engine,
  staging: Staging,
  table: TableName,
  names: readonly string[],
  originals: Originals,
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
        ${table === 'units' ? sql`and ${id} not in (${handedOn(staging)})` : sql``}
      window earlier as (partition by ${id} order by ${earlier(staging, table)})
      qualify row_number() over earlier > 1`,
    signal,
  );
  await completeSuspects(engine, staging, originals, signal);
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

/** Puts rows that came first, and are later by their day, among the suspects with what stands in their files. */
async function completeSuspects(
  engine: Engine,
  staging: Staging,
  originals: Originals,
  signal?: AbortSignal,
): Promise<void> {
  const missing = await engine.query(
    sql`select file_id, line from ${staging.table('twice')} anti join ${staging.table('suspects')} using (file_id, line)`,
    signal,
  );
  if (missing.rows === 0) return;
  const [files, lines] = [numberColumn(missing, 'file_id'), numberColumn(missing, 'line')];
  const places = Array.from(files, (fileId, at): Place => ({ fileId, line: lines[at] as number }));
  const original = await originals(places);
  await staging.append('suspects', { file_id: files, line: lines, original: places.map(original) });
}
