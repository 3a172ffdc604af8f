import type { FieldFilled } from '../../../shared/record-quality.ts';
import { deviations } from '../../../shared/deviations.ts';
import { recordTables, type TableName } from '../../../shared/record-tables.ts';
import { numberColumn, textColumn, type ResultTable } from '../../engine/engine.ts';
import { identifier, joinSql, sql, type Statement } from '../../engine/statement.ts';

/** Tables whose completeness is told by shop: the job's own, or the unit's home shop where a row names none. */
export const judgedTables = ['services', 'inspections', 'failures'] as const satisfies readonly TableName[];
type JudgedTable = (typeof judgedTables)[number];

/** Free words and references that most rows rightly leave blank. */
const mayBeBlank = new Set(['comment', 'order_id', 'deviations', 'teardown_deviations', 'wheel_lost_by', 'leak_at']);

export const judgedColumns = (table: JudgedTable): readonly string[] =>
  recordTables[table].flatMap(({ name, required }) => (required || mayBeBlank.has(name) ? [] : [name]));

/** Hubs on which a field can exist at all: of the deviations it is evidence of, the widest scope. */
function canExist(column: string): Statement {
  const scopes = deviations.flatMap(({ scope, evidence }) =>
    [evidence.measured?.column, evidence.stated?.column, evidence.step].includes(column) ? [scope] : [],
  );
  const builds = scopes.some(({ hubBuilds }) => hubBuilds === undefined)
    ? []
    : [...new Set(scopes.flatMap(({ hubBuilds }) => hubBuilds ?? []))];
  const double = scopes.length > 0 && scopes.every(({ nutSystem }) => nutSystem === 'double');
  const onBuilds = builds.map((build) => sql`coalesce(hub_build, ${build}) = ${build}`);
  const parts = [
    ...(onBuilds.length > 0 ? [sql`(${joinSql(onBuilds, ' or ')})`] : []),
    ...(double ? [sql`coalesce(nut_system, 'double') = 'double'`] : []),
  ];
  return parts.length > 0 ? joinSql(parts, ' and ') : sql`true`;
}

/** The shop of a row: its own, else its unit's home shop; blank where neither is known. */
const shopOf: Readonly<Record<JudgedTable, Statement>> = {
  services: sql`coalesce(r.shop, u.home_shop)`,
  inspections: sql`u.home_shop`,
  failures: sql`u.home_shop`,
};

/** Rows and filled cells of every judged column by shop: `rows_<column>`, `filled_<column>`. */
export function fieldsStatement(table: JudgedTable): Statement {
  const counts = judgedColumns(table).map((column) => {
    const where = table === 'services' ? canExist(column) : sql`true`;
    return sql`cast(count(*) filter (${where}) as double) as ${identifier(`rows_${column}`)},
      cast(count(${identifier(column)}) filter (${where}) as double) as ${identifier(`filled_${column}`)}`;
  });
  return sql`select shop, ${joinSql(counts, ', ')}
    from (select r.* exclude (${identifier(table === 'services' ? 'shop' : 'unit_id')}), ${shopOf[table]} as shop
      from ${identifier(table)} r left join (select unit_id, any_value(home_shop) as home_shop from units group by unit_id) u on u.unit_id = r.unit_id)
    group by shop`;
}

/** The shops of all tables, in the order of the alphabet; rows of no known shop come last as `(no shop)`. */
export function shopsIn(results: readonly ResultTable[]): string[] {
  const named = new Set(results.flatMap((result) => textColumn(result, 'shop')));
  const known = [...named].filter((shop) => shop !== null).sort();
  return named.has(null) ? [...known, noShop] : known;
}
const noShop = '(no shop)';

export function fieldsFilled(table: JudgedTable, result: ResultTable, shops: readonly string[]): FieldFilled[] {
  const at = textColumn(result, 'shop').map((shop) => shop ?? noShop);
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
  return judgedColumns(table).map((column) => {
    const [rows, filled] = [numberColumn(result, `rows_${column}`), numberColumn(result, `filled_${column}`)];
    const byShop = shops.map((shop) => {
      const row = at.indexOf(shop);
      return row < 0 ? { rows: 0, filled: 0 } : { rows: rows[row] as number, filled: filled[row] as number };
    });
    return { table, column, shops: byShop, rows: sum([...rows]), filled: sum([...filled]) };
  });
}
