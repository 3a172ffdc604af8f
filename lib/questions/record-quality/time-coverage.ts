import type { SilentShop, TableCoverage } from '../../../shared/record-quality.ts';
import type { TableName } from '../../../shared/record-tables.ts';
import { numberColumn, textColumn, type ResultTable } from '../../engine/engine.ts';
import { joinSql, sql, type Statement } from '../../engine/statement.ts';

const dated: Readonly<Partial<Record<TableName, Statement>>> = {
  readings: sql`select 'readings' as "table", date from readings`,
  services: sql`select 'services', date from services`,
  inspections: sql`select 'inspections', date from inspections`,
  failures: sql`select 'failures', date from failures`,
};

/** Rows by table and month, with the first and last day of each. */
export const coverageStatement = sql`
select "table", strftime(date, '%Y-%m') as month, cast(count(*) as double) as n,
  cast(min(date) as varchar) as first, cast(max(date) as varchar) as last
from (${joinSql(Object.values(dated), ' union all ')}) group by "table", month order by "table", month`;

/** A pause counts as silence from this many days on, and from ten times the shop's usual pause. */
const silentDays = 60;
const silentTimes = 10;

/** Pauses between a shop's services within the window, and at its end, far longer than is usual there. */
export const silentStatement = sql`
with days as (select distinct shop, date from services where shop is not null),
ended as (select shop, date from days union select distinct shop, observed_to from days cross join observation where observed_to is not null),
pauses as (select shop, lag(date) over (partition by shop order by date) as since, date from ended),
usual as (select shop, median(date - since) as usual_days from pauses where since is not null group by shop)
select p.shop, cast(since as varchar) as "from", cast(date as varchar) as "to", cast(date - since as double) as days, cast(usual_days as double) as usual_days
from pauses p join usual u on u.shop = p.shop cross join observation where since is not null and date > observed_from and date - since > greatest(${silentDays}, ${silentTimes} * usual_days) order by days desc, p.shop limit 50`;

export function tableCoverage(result: ResultTable): TableCoverage[] {
  const [table, month, first, last] = ['table', 'month', 'first', 'last'].map((name) => textColumn(result, name));
  const rows = numberColumn(result, 'n');
  const tables = [...new Set(table)] as TableName[];
  return tables.map((name) => {
    const at = (table ?? []).flatMap((found, row) => (found === name ? [row] : []));
    return {
      table: name,
      first: first?.[at[0] as number] ?? '',
      last: last?.[at.at(-1) as number] ?? '',
      months: at.map((row) => ({ month: month?.[row] ?? '', rows: rows[row] as number })),
    };
  });
}

export const silentShops = (result: ResultTable): SilentShop[] =>
  textColumn(result, 'shop').map((shop, row) => ({
    shop: shop ?? '',
    from: textColumn(result, 'from')[row] ?? '',
    to: textColumn(result, 'to')[row] ?? '',
    days: numberColumn(result, 'days')[row] as number,
    usualDays: numberColumn(result, 'usual_days')[row] as number,
  }));
