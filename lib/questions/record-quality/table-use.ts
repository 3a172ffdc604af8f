import type { TableUse } from '../../../shared/record-quality.ts';
import { tableNames } from '../../../shared/record-tables.ts';
import { numberColumn, textColumn, type ResultTable } from '../../engine/engine.ts';
import { sql } from '../../engine/statement.ts';

/** The account by table; files that were refused feed none. */
export const tableUseStatement = sql`
select "table", cast(sum(read) as double) as read, cast(sum(kept) as double) as kept, cast(sum(set_aside) as double) as set_aside
from files where refused is null and "table" is not null group by "table"`;

export const reasonsStatement = sql`
select f."table" as "table", s.reason as reason, cast(count(*) as double) as n
from set_aside s join files f on f.file_id = s.file_id and f.refused is null group by all order by n desc, reason`;

export function tableUse(totals: ResultTable, reasons: ResultTable): TableUse[] {
  const tables = textColumn(totals, 'table');
  const named = textColumn(reasons, 'table');
  return tableNames.flatMap((table) => {
    const at = tables.indexOf(table);
    if (at < 0) return [];
    const number = (name: string) => numberColumn(totals, name)[at] as number;
    return [
      {
        ...{ table, read: number('read'), kept: number('kept'), setAside: number('set_aside') },
        reasons: named.flatMap((name, row) =>
          name === table
            ? [{ reason: textColumn(reasons, 'reason')[row] ?? '', rows: numberColumn(reasons, 'n')[row] as number }]
            : [],
        ),
      },
    ];
  });
}
