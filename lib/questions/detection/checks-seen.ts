import { daysAMonth } from '../../../shared/units.ts';
import type { Axis } from '../../../shared/view.ts';
import type { Component } from '../../../shared/vocabulary.ts';
import { numberColumn } from '../../engine/engine.ts';
import { identifier, sql, type Statement } from '../../engine/statement.ts';
import { livesTable } from '../../lives/index.ts';
import { run, type Asking } from '../asking.ts';

const leakAt: Readonly<Record<Component, Statement>> = {
  seal: sql`coalesce(i.leak_at, 'unknown') in ('inboard', 'unknown')`,
  gasket: sql`i.leak_at in ('hubcap', 'flange')`,
  bearing: sql`false`,
};

/**
 * Every check within a life of known start that says whether the part leaks: dry, or a leak of 1 or
 * more there. One that says no leak grade, or a leak elsewhere, tells neither and is left out.
 */
export const checksSeenStatement = (component: Component): Statement => sql`
select cast(l.life_row as integer) as life_row, i.at_miles - l.install_miles as age_miles,
  (i.date - l.install_date) / ${daysAMonth} as age_months, case when i.leak = 0 then 0 else 1 end as seen
from (select rowid as life_row, wheel_end, install_miles, install_date, observed_from_miles, observed_to_miles
  from ${identifier(livesTable(component))} where install_known) l
join work_placed_inspections i on i.wheel_end = l.wheel_end and i.at_miles > l.observed_from_miles and i.at_miles <= l.observed_to_miles
where i.checked = 'yes' and (i.leak = 0 or (i.leak >= 1 and ${leakAt[component]}))
order by life_row, age_miles, age_months, seen`;

/** Checks by life, then age. Columns of equal length. */
export interface ChecksSeen {
  readonly life: Int32Array;
  readonly age: Float64Array;
  readonly seen: Uint8Array;
}

/** Null where no inspections stand behind the lives. */
export async function checksSeen(asking: Asking, component: Component, axis: Axis): Promise<ChecksSeen | null> {
  if (!asking.source.fromRecords) return null;
  const found = await run(asking, checksSeenStatement(component));
  return {
    life: Int32Array.from(numberColumn(found, 'life_row')),
    age: Float64Array.from(numberColumn(found, `age_${axis}`)),
    seen: Uint8Array.from(numberColumn(found, 'seen')),
  };
}
