import type { View } from '../../shared/view.ts';
import { numberColumn, textColumn, type ResultTable } from '../engine/engine.ts';
import { identifier, sql, type Statement } from '../engine/statement.ts';
import { groupCode, labelColumns, type GroupKeys } from './group-keys.ts';
import { scopeSql } from './scope.ts';

/** What groups may differ in besides the cut. */
const mixColumns = ['role', 'lubricant', 'hub_build', 'shop', 'duty'] as const;

/** Cuts that only say where a part sits: nobody reads them as what made it fail. */
const places = new Set(['role', 'axle', 'side', 'position', 'unit_id', 'mileage_quality']);

/** Whether a cut invites a reading as cause, so that the groups' mix matters. */
export const mixMatters = (view: View): boolean => view.by.some((column) => !places.has(column));

/** Miles of each group by each value of each attribute it may differ in. */
export function mixStatement(view: View, table: string): Statement {
  const columns = mixColumns.filter((column) => !view.by.includes(column));
  const labels = view.by.map((_, index) => `label_${index}`).join(', ');
  const text = (value: string): Statement => ({ text: value, values: [] });
  const attribute = columns.map((column) => `when grouping(${column}) = 0 then '${column}'`).join(' ');
  const value = columns.map((column) => `when grouping(${column}) = 0 then coalesce(${column}, 'unknown')`).join(' ');
  const sets = columns.map((column) => `(${labels}, ${column})`).join(', ');
  return sql`
with scoped as (
  select ${labelColumns(view)}, exposure_miles, ${text(columns.map((column) => `cast(${column} as varchar) as ${column}`).join(', '))}
  from ${identifier(table)} where ${scopeSql(view)}
)
select cast(${groupCode(view)} as integer) as cut_group, ${text(`case ${attribute} end as attribute, case ${value} end as value`)},
  cast(sum(exposure_miles) as double) as miles
from scoped group by grouping sets (${text(sets)})`;
}

/** Miles by attribute, value and group shown. */
export type Mix = ReadonlyMap<string, ReadonlyMap<string, Float64Array>>;

export function readMix(result: ResultTable, keys: GroupKeys): Mix {
  const [code, miles] = [numberColumn(result, 'cut_group'), numberColumn(result, 'miles')];
  const [attribute, value] = [textColumn(result, 'attribute'), textColumn(result, 'value')];
  const mix = new Map<string, Map<string, Float64Array>>();
  for (let row = 0; row < result.rows; row++) {
    const group = keys.ofCode[code[row] as number] ?? -1;
    if (group < 0) continue;
    const values = mix.get(attribute[row] as string) ?? new Map<string, Float64Array>();
    mix.set(attribute[row] as string, values);
    const sums = values.get(value[row] as string) ?? new Float64Array(keys.groups.length);
    values.set(value[row] as string, sums);
    sums[group] = miles[row] as number;
  }
  return mix;
}
