import type { Component } from '../../../shared/vocabulary.ts';
import { numberColumn } from '../../engine/engine.ts';
import { identifier, sql, type Statement } from '../../engine/statement.ts';
import { livesTable } from '../../lives/index.ts';
import { run, type Asking } from '../asking.ts';
import type { ShopsEvidence } from './shops-evidence.ts';

/** Checked inspections within each life that was looked at. */
export const checksStatement = (component: Component): Statement => sql`
select cast(l.life_row as integer) as life_row, cast(count(*) as double) as checks
from (select rowid as life_row, wheel_end, observed_from_miles, observed_to_miles from ${identifier(livesTable(component))}) l
join work_placed_inspections i on i.wheel_end = l.wheel_end and i.at_miles > l.observed_from_miles and i.at_miles <= l.observed_to_miles
where i.checked = 'yes' group by l.life_row`;

/** How often the lives of a group are looked at. */
export interface GroupChecks {
  readonly checks: number;
  readonly miles: number;
}

/** By group; null where no inspections stand behind the lives. */
export async function checksByGroup(asking: Asking, evidence: ShopsEvidence): Promise<GroupChecks[] | null> {
  if (!asking.source.fromRecords) return null;
  const found = await run(asking, checksStatement(evidence.asked.component));
  const [row, count] = [numberColumn(found, 'life_row'), numberColumn(found, 'checks')];
  const checks = new Float64Array(evidence.columns.rows);
  for (let at = 0; at < found.rows; at++) checks[row[at] as number] = count[at] as number;
  const sums = evidence.groups.levels.map(() => ({ checks: 0, miles: 0 }));
  evidence.groups.codes.forEach((group, at) => {
    const sum = sums[group] as { checks: number; miles: number };
    sum.checks += checks[evidence.rows[at] as number] as number;
    sum.miles += evidence.miles[at] as number;
  });
  return sums;
}
