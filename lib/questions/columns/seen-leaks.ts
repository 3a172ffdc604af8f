import { daysAMonth } from '../../../shared/units.ts';
import type { Axis } from '../../../shared/view.ts';
import type { Component } from '../../../shared/vocabulary.ts';
import { numberColumn, type ResultTable } from '../../engine/engine.ts';
import { identifier, sql, type Statement } from '../../engine/statement.ts';
import { livesTable } from '../../lives/index.ts';

const leakAt: Readonly<Record<Component, Statement>> = {
  seal: sql`coalesce(i.leak_at, 'unknown') in ('inboard', 'unknown')`,
  gasket: sql`i.leak_at in ('hubcap', 'flange')`,
  bearing: sql`false`,
};

/**
 * Age at the first leak of 2 or more that an inspection saw in a life which no failure ended; only
 * where inspections stand behind the lives.
 */
export const seenLeaksStatement = (component: Component): Statement => sql`
select cast(l.rowid as integer) as life_row, min(i.at_miles) - any_value(l.install_miles) as seen_miles,
  (min(i.date) - any_value(l.install_date)) / ${daysAMonth} as seen_months
from work_placed_inspections i join ${identifier(livesTable(component))} l
on l.wheel_end = i.wheel_end and i.at_miles > l.observed_from_miles and i.at_miles <= l.observed_to_miles
where l.state <> 'failed' and i.checked = 'yes' and i.leak >= 2 and ${leakAt[component]} group by l.rowid`;

/** By life; NaN where no such leak was seen, or the life has no age. */
export function readSeenLeaks(result: ResultTable, lives: number): Readonly<Record<Axis, Float64Array>> {
  const row = numberColumn(result, 'life_row');
  const byLife = (name: string) => {
    const seen = new Float64Array(lives).fill(NaN);
    const ages = numberColumn(result, name);
    for (let place = 0; place < result.rows; place++) seen[row[place] as number] = ages[place] as number;
    return seen;
  };
  return { miles: byLife('seen_miles'), months: byLife('seen_months') };
}
