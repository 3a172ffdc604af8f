import type { InspectionIntensity } from '../../../shared/record-quality.ts';
import { numberColumn, textColumn, type ResultTable } from '../../engine/engine.ts';
import { identifier, joinSql, sql } from '../../engine/statement.ts';

const cuts = ['shop', 'lubricant'] as const;

/**
 * Checked inspections within the lives of each shop and lubricant, against the miles of those lives: a
 * leak is found the later the seldomer somebody looks. The shop is the one that installed.
 */
export const intensityStatement = sql`
with checks as (
  select l.life_id, count(*) as checks from work_placed_inspections i join lives_seal l
  on l.wheel_end = i.wheel_end and i.at_miles > l.observed_from_miles and i.at_miles <= l.observed_to_miles
  where i.checked = 'yes' group by l.life_id
)
${joinSql(
  cuts.map(
    (
      cut,
    ) => sql`select ${cut} as cut, ${identifier(cut)} as cut_value, cast(coalesce(sum(c.checks), 0) as double) as checks,
      sum(l.exposure_miles) as miles from lives_seal l left join checks c on c.life_id = l.life_id
      where l.${identifier(cut)} is not null group by cut_value`,
  ),
  ' union all ',
)} order by cut, cut_value`;

export const inspectionIntensity = (result: ResultTable): InspectionIntensity[] =>
  textColumn(result, 'cut').map((by, row) => ({
    by: by as InspectionIntensity['by'],
    value: textColumn(result, 'cut_value')[row] ?? '',
    checks: numberColumn(result, 'checks')[row] as number,
    miles: numberColumn(result, 'miles')[row] as number,
  }));

/** How many times as often the most checked value is looked at as the least; null below two that ran 100,000 miles. */
export function intensitySpread(rows: readonly InspectionIntensity[], by: InspectionIntensity['by']): number | null {
  const rates = rows
    .filter((row) => row.by === by && row.miles >= 100_000)
    .map(({ checks, miles }) => checks / miles)
    .sort((a, b) => a - b);
  const [least, most] = [rates[0], rates.at(-1)];
  if (rates.length < 2 || least === undefined || most === undefined) return null;
  return least > 0 ? most / least : Infinity;
}
