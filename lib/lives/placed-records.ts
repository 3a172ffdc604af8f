import { components, type Component } from '../../shared/vocabulary.ts';
import type { Statement } from '../engine/statement.ts';
import { sql } from '../engine/statement.ts';

/** Rows dated after the window, or after the unit left, are not part of what was observed. */
const placed = (table: 'services' | 'failures' | 'inspections', extra: string, dayMiles = 'd.miles'): Statement => ({
  text: `
create or replace table work_placed_${table} as
select r.*, w.wheel_end, w.role, w.duty, coalesce(r.miles, ${dayMiles}) as at_miles,
  case when r.miles is not null then 'measured' else d.quality end as miles_quality,
  r.date >= o.observed_from as in_window ${extra}
from ${table} r cross join observation o
join work_wheel_ends w on w.unit_id = r.unit_id and w.axle = r.axle and w.side = r.side
join work_unit_spans s on s.unit_id = r.unit_id
left join work_day_miles d on d.unit_id = r.unit_id and d.day = r.date
where coalesce(r.miles, d.miles) is not null and r.date <= o.observed_to
  and not (s.has_left and coalesce(r.date > s.out_date, coalesce(r.miles, ${dayMiles}) > s.to_miles))`,
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
 * rows with their wheel end and miles (given, or by interpolation and marked).
 */
export const placedStages: readonly Statement[] = [
  placed('services', `, string_split(coalesce(r.replaced, ''), ';') as parts`),
  // Of a day known by more than one reading a failure takes the first: it was found before it was repaired.
  placed('failures', failureColumns, 'coalesce(d.low_miles, d.miles)'),
  placed('inspections', ''),
  sql`create or replace table work_checks as
    select wheel_end, at_miles, date from work_placed_inspections where checked = 'yes' and leak = 0`,
];
