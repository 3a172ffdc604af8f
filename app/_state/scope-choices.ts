import { deviationCodes, deviationColumn } from '../../shared/deviations.ts';
import { cutColumns, lifeColumns } from '../../shared/lives.ts';
import { numberColumn, textColumn, type Engine } from '../../lib/engine/engine.ts';
import { identifier, joinSql, sql, type Statement } from '../../lib/engine/statement.ts';
import type { ColumnChoices, ScopeChoices } from './opened-records.ts';

const deviationColumns = deviationCodes.map(deviationColumn);
/** Attributes whose values are offered one by one; a deviation has its own four words. */
export const offeredColumns = cutColumns.filter((column) => !deviationColumns.includes(column));
/** More values than this are no choice but a search; the commonest are offered. */
const mostValues = 60;

const numeric = new Set([
  'install_year',
  ...lifeColumns.filter(({ kind }) => kind === 'number').map(({ name }) => name),
]);

/** The value as questions label it: whole numbers without a point, null as `unknown`. */
function labelOf(column: string): Statement {
  const name = identifier(column);
  const text = numeric.has(column) ? sql`cast(cast(${name} as bigint) as varchar)` : sql`cast(${name} as varchar)`;
  return sql`coalesce(${text}, 'unknown')`;
}

export const valuesStatement = (column: string): Statement => sql`
select ${labelOf(column)} as value, cast(count(*) as double) as lives
from lives_seal group by 1 order by 2 desc, 1 limit ${mostValues}`;

const countOf = (column: string, word: string): Statement =>
  sql`cast(count(*) filter (${identifier(column)} = ${word}) as double) as ${identifier(`${column}_${word}`)}`;

export const deviationsStatement: Statement = sql`
select ${joinSql(
  deviationColumns.flatMap((column) => [countOf(column, 'yes'), countOf(column, 'no')]),
  ', ',
)} from lives_seal`;

export const yearsStatement: Statement = sql`
select cast(min(install_year) as double) as first, cast(max(install_year) as double) as last from lives_seal`;

export const totalsStatement: Statement = sql`
select cast(count(*) as double) as lives, cast(count(distinct unit_id) as double) as vehicles,
  cast(coalesce(sum(exposure_miles), 0) as double) as miles from lives_seal`;

async function valuesOf(engine: Engine, column: string): Promise<ColumnChoices> {
  const result = await engine.query(valuesStatement(column));
  const [values, lives] = [textColumn(result, 'value'), numberColumn(result, 'lives')];
  return { column, values: values.map((value, row) => ({ value: value ?? 'unknown', lives: lives[row] ?? 0 })) };
}

const first = (column: Float64Array): number => column[0] ?? Number.NaN;
const known = (value: number): number | null => (Number.isNaN(value) ? null : value);

/** What the lives in `lives_seal` can be narrowed to and told apart by. */
export async function scopeChoices(engine: Engine): Promise<ScopeChoices> {
  const columns: ColumnChoices[] = [];
  for (const column of offeredColumns) columns.push(await valuesOf(engine, column));
  const counts = await engine.query(deviationsStatement);
  const years = await engine.query(yearsStatement);
  const deviations = deviationColumns.map((column) => ({
    column,
    yes: first(numberColumn(counts, `${column}_yes`)),
    no: first(numberColumn(counts, `${column}_no`)),
  }));
  const [firstYear, lastYear] = [first(numberColumn(years, 'first')), first(numberColumn(years, 'last'))];
  return { columns, deviations, firstYear: known(firstYear), lastYear: known(lastYear) };
}

export async function recordTotals(engine: Engine): Promise<{ lives: number; vehicles: number; miles: number }> {
  const result = await engine.query(totalsStatement);
  const value = (name: string) => first(numberColumn(result, name));
  return { lives: value('lives'), vehicles: value('vehicles'), miles: value('miles') };
}
