import type { Series } from '../../../shared/finding.ts';
import { numberColumn, textColumn } from '../../engine/engine.ts';
import { sql, type Statement } from '../../engine/statement.ts';
import { run, type Asking } from '../asking.ts';

/** How often a teardown found each deviation: after the failure, so no exposure (record contract 1). */
export const teardownStatement: Statement = sql`
with said as (
  select trim(code) as code from (select unnest(string_split(teardown_deviations, ';')) as code from failures where teardown_deviations is not null)
)
select code, cast(count(*) as double) as found,
  (select cast(count(*) as double) from failures where teardown_deviations is not null) as opened
from said where code <> '' group by code order by code`;

/** One series a deviation found at a teardown; none where a lives table was opened. */
export async function teardownFindings(asking: Asking): Promise<Series[]> {
  if (!asking.source.fromRecords) return [];
  const result = await run(asking, teardownStatement);
  const [found, opened] = [numberColumn(result, 'found'), numberColumn(result, 'opened')];
  return textColumn(result, 'code').map((code, row) => ({
    name: 'teardown',
    group: code ?? 'unknown',
    columns: { found: [found[row] as number], tornDown: [opened[row] as number] },
  }));
}
