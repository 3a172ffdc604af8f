import { rightedRules, type Choices } from '../../shared/choices.ts';
import { components, type Component } from '../../shared/vocabulary.ts';
import type { Statement } from '../engine/statement.ts';
import { sql } from '../engine/statement.ts';
import { mayBeFilled } from './filled-miles.ts';

type Table = 'services' | 'failures' | 'inspections';

/**
 * Rows dated after the window, or after the unit left, are not part of what was observed. Miles are
 * those written, or what the reading judged there was put right to, or those of the day.
 */
const placed = (table: Table, extra: string, choices: Choices, dayMiles = 'd.miles'): Statement => ({
  text: `
create or replace table work_placed_${table} as
with settled as (
  select r.*, w.wheel_end, w.role, w.duty, s.observed_from, s.observed_to, s.has_left, s.out_date, s.to_miles,
    case when r.miles is null then case when ${mayBeFilled(choices).text} then ${dayMiles} end
      when v.rule is null then r.miles else coalesce(v.used_miles, ${dayMiles}) end as at_miles,
    case when r.miles is null or (v.rule is not null and v.used_miles is null) then d.quality
      when v.rule in (${rightedRules.map((rule) => `'${rule}'`).join(', ')}) then 'interpolated' else 'measured' end as miles_quality,
    case when r.miles is null then d.rule else v.rule end as miles_rule
  from fleet_${table} r
  join work_wheel_ends w on w.unit_id = r.unit_id and w.axle = r.axle and w.side = r.side
  join work_unit_spans s on s.unit_id = r.unit_id
  left join work_mile_verdicts v on v.unit_id = r.unit_id and v.day = r.date and v.miles = r.miles
  left join work_day_miles d on d.unit_id = r.unit_id and d.day = r.date
)
select * exclude (observed_from, observed_to, has_left, out_date, to_miles), date >= observed_from as in_window ${extra}
from settled where at_miles is not null and date <= observed_to and not (has_left and coalesce(date > out_date, at_miles > to_miles))`,
  values: [],
});

const modeWhen = (Object.keys(components) as Component[])
  .map(
    (component) =>
      `when mode in (${components[component].modes.map((mode) => `'${mode}'`).join(', ')}) then '${component}'`,
  )
  .join(' ');

/** A wheel lost through its fasteners is listed, never counted as a wheel-end failure. */
const failureColumns = `,
  case ${modeWhen} else 'other' end as failed_component,
  coalesce(wheel_lost_by = 'fastener' and (mode = 'wheel-lost' or wheel_lost = 'yes'), false) as by_fastener,
  repair_service_id in (select service_id from services) as repair_known`;

/**
 * Stages that make `work_placed_services`, `work_placed_failures` and `work_placed_inspections`:
 * rows with their wheel end, their miles, how good those are and the rule that changed or filled them.
 */
export const placedStages = (choices: Choices): readonly Statement[] => [
  placed('services', `, string_split(coalesce(replaced, ''), ';') as parts`, choices),
  // Of a day known by more than one reading a failure takes the first: it was found before it was repaired.
  placed('failures', failureColumns, choices, 'coalesce(d.low_miles, d.miles)'),
  placed('inspections', '', choices),
  sql`create or replace table work_checks as
    select wheel_end, at_miles, date from work_placed_inspections where checked = 'yes' and leak = 0`,
];
