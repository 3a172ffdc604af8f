import type { Choices } from '../../shared/choices.ts';
import { recordTables, type RecordColumn } from '../../shared/record-tables.ts';
import { numberColumn, textColumn, type Engine } from '../engine/engine.ts';
import { identifier, joinSql, sql, type Statement } from '../engine/statement.ts';
import type { Staging } from './staging.ts';

/** Tables of rows about a wheel end on a day, of which the same may have been said twice. */
export const eventTables = ['services', 'inspections', 'failures'] as const;
type EventTable = (typeof eventTables)[number];

/** A row that says what another one said already. */
export interface RepeatedRow {
  readonly fileId: number;
  readonly line: number;
  readonly id: string;
  /** The row that is kept instead. */
  readonly keptFile: number;
  readonly keptLine: number;
  readonly keptId: string;
  /** Whether it differs from the row kept in its comment. */
  readonly commented: boolean;
  /** The day it bears where it is an order opened again, else null. */
  readonly reopened: string | null;
  readonly keptDate: string;
}

/** Columns by which a row is known, or points at others: they are no part of what it says. */
const notSaid = new Set(['service_id', 'inspection_id', 'failure_id', 'order_id', 'repair_service_id']);

/** Orders opened again with no miles written are the same only so soon after. */
const soonDays = 90;

const place = sql`unit_id, axle, side`;

/** Columns that say something beyond where and when. */
const telling = (staging: Staging, table: EventTable): string[] =>
  staging.columns(table).filter((name) => !notSaid.has(name) && !['unit_id', 'axle', 'side', 'date'].includes(name));

/** What a row says of which wheel end and when, or in which order, as one number. */
const said = (known: Statement, columns: readonly string[]): Statement =>
  sql`hash(${joinSql([known, ...columns.map((name) => sql`${identifier(name)}`)], ', ')})`;

/**
 * Rows with what they say, those left out that share their wheel end and numbers with no other: few are left,
 * and texts, which take longest to read, are read of these alone.
 */
const suspected = (
  staging: Staging,
  table: EventTable,
  known: Statement,
  columns: readonly string[],
  among: Statement,
): Statement => {
  const rows = staging.table(table);
  const numbers = said(known, numbersAmong(table, columns));
  return sql`select *, ${said(known, columns)} as says from ${rows} where ${among}
    and ${numbers} in (select ${numbers} from ${rows} group by all having count(*) > 1)`;
};

const numbersAmong = (table: EventTable, columns: readonly string[]): string[] =>
  recordTables[table].filter((column) => columns.includes(column.name) && isNumber(column)).map(({ name }) => name);

const isNumber = ({ kind }: RecordColumn): boolean => kind === 'number' || kind === 'integer' || kind === 'date';

/** A row that says nothing beyond where and when, but for a comment, is the same as no other. */
const saysAny = (columns: readonly string[]): Statement =>
  sql`(${joinSql(
    [sql`false`, ...columns.flatMap((name) => (name === 'comment' ? [] : [sql`${identifier(name)} is not null`]))],
    ' or ',
  )})`;

/** Of rows alike the one with the least id is kept, so that the order of rows and files decides nothing. */
const samePayload = (staging: Staging, table: EventTable): Statement => {
  const columns = telling(staging, table);
  const id = identifier(recordTables[table][0]!.name);
  return sql`
  with suspects as (${suspected(staging, table, sql`${place}, date`, columns, saysAny(columns))})
  select file_id, line, ${id} as id, first_value(file_id) over alike as kept_file, first_value(line) over alike as kept_line,
    first_value(${id}) over alike as kept_id, null::varchar as reopened, cast(date as varchar) as kept_date, 0.0 as commented
  from suspects window alike as (partition by ${place}, date, says order by ${id}, file_id, line)
  qualify row_number() over alike > 1`;
};

/**
 * The same order again, whatever remark it bears: the first date is kept, since the work was done then; of rows of
 * one day the one with a remark.
 */
const reopenedOrders = (staging: Staging): Statement => {
  const columns = telling(staging, 'services').filter((name) => name !== 'comment');
  const comment = staging.columns('services').includes('comment') ? sql`comment` : sql`null::varchar`;
  const miles = staging.columns('services').includes('miles') ? sql`miles` : sql`null`;
  return sql`
  with suspects as (
    select *, ${miles} as ran, ${comment} as remark
    from (${suspected(staging, 'services', sql`order_id, ${place}`, columns, sql`order_id is not null and ${saysAny(columns)}`)})
  )
  select file_id, line, service_id as id, first_value(file_id) over alike as kept_file, first_value(line) over alike as kept_line,
    first_value(service_id) over alike as kept_id, cast(date as varchar) as reopened, cast(first_value(date) over alike as varchar) as kept_date,
    case when remark is distinct from first_value(remark) over alike then 1.0 else 0.0 end as commented
  from suspects window alike as (partition by order_id, ${place}, says order by date, remark is null, service_id, file_id, line)
  qualify row_number() over alike > 1 and (date > first_value(date) over alike or remark is distinct from first_value(remark) over alike)
    and (ran is not null or date - first_value(date) over alike <= ${soonDays})`;
};

async function found(engine: Engine, statement: Statement, signal?: AbortSignal): Promise<RepeatedRow[]> {
  const answer = await engine.query(statement, signal);
  const number = (name: string) => numberColumn(answer, name);
  const text = (name: string) => textColumn(answer, name);
  const [file, line, keptFile, keptLine] = ['file_id', 'line', 'kept_file', 'kept_line'].map(number) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const commented = number('commented');
  const [id, keptId, reopened, keptDate] = [text('id'), text('kept_id'), text('reopened'), text('kept_date')];
  return Array.from({ length: answer.rows }, (_, row) => ({
    ...{ fileId: file[row]!, line: line[row]!, id: id[row]!, keptFile: keptFile[row]!, keptLine: keptLine[row]! },
    ...{ keptId: keptId[row]!, reopened: reopened[row] ?? null, keptDate: keptDate[row]! },
    commented: commented[row] === 1,
  }));
}

async function take(
  engine: Engine,
  staging: Staging,
  table: EventTable,
  rule: keyof Choices['duplicates'],
  rows: readonly RepeatedRow[],
): Promise<void> {
  if (rows.length === 0) return;
  await engine.run(sql`create or replace table ${staging.table('twice')} (file_id integer, line bigint)`);
  const places = { file_id: rows.map(({ fileId }) => fileId), line: rows.map(({ line }) => line) };
  await staging.append('twice', {
    file_id: Float64Array.from(places.file_id),
    line: Float64Array.from(places.line),
  });
  await engine.run(
    sql`delete from ${staging.table(table)} where (file_id, line) in (select (file_id, line) from ${staging.table('twice')})`,
  );
  await staging.append('repeated', {
    table: rows.map(() => table),
    rule: rows.map(() => rule),
    id: rows.map(({ id }) => id),
    kept_id: rows.map(({ keptId }) => keptId),
  });
}

/**
 * Takes out of a table the rows that say what another row said: the same under another id, and orders
 * opened again. Ids of rows taken out stay known by `duplicate_ids`, so that links to them lead on.
 * @returns the rows taken out, for the account of what was set aside
 */
export async function takeRepeatedRows(
  engine: Engine,
  staging: Staging,
  table: EventTable,
  { samePayload: same, reopenedOrders: reopened }: Choices['duplicates'],
  signal?: AbortSignal,
): Promise<RepeatedRow[]> {
  const columns = staging.columns(table);
  if (!columns.includes('date') || telling(staging, table).length === 0) return [];
  const rows = same ? await found(engine, samePayload(staging, table), signal) : [];
  await take(engine, staging, table, 'samePayload', rows);
  if (table !== 'services' || !reopened || !columns.includes('order_id')) return rows;
  if (telling(staging, table).every((name) => name === 'comment')) return rows;
  const again = await found(engine, reopenedOrders(staging), signal);
  await take(engine, staging, table, 'reopenedOrders', again);
  return [...rows, ...again];
}
