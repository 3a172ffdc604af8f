import type { Component } from '../../shared/vocabulary.ts';
import { identifier, sql, type Statement } from '../engine/statement.ts';

/** The lives of every wheel end of a vehicle, front to rear, in the order they were lived. */
export const unitLivesStatement = (component: Component, unitId: string): Statement => sql`
select life_id, cast(wheel_end as double) as wheel_end, axle, side, role, state, mode, inferred, cast(install_known as integer) as install_known,
  observed_from_miles, observed_to_miles, install_miles
from ${identifier(`lives_${component}`)} where unit_id = ${unitId} order by axle, side, slot`;

/** Stretches between a failure and its repair, which belong to no life. */
export const unitWaitsStatement = (component: Component, unitId: string): Statement => sql`
select cast(wheel_end as double) as wheel_end, from_miles, to_miles from ${identifier(`after_failure_${component}`)}
where unit_id = ${unitId} order by wheel_end, from_miles`;

/**
 * Everything written down at the wheel ends of a vehicle, by miles. `counts`: a service that renews
 * the component, a failure of it, a check that bounds its onset.
 */
export const unitEventsStatement = (component: Component, unitId: string): Statement => sql`
select * from (
  select 'services' as "table", s.service_id as id, cast(s.wheel_end as double) as wheel_end, s.at_miles as miles, cast(s.date as varchar) as day,
    s.miles_quality as quality, s.replaced as what, s.reason as why, cast(null as double) as leak,
    cast(r.service_id is not null as integer) as counts
  from work_placed_services s left join ${identifier(`work_renewals_${component}`)} r on r.service_id = s.service_id and r.wheel_end = s.wheel_end
  where s.unit_id = ${unitId}
  union all select 'failures', failure_id, cast(wheel_end as double), at_miles, cast(date as varchar), miles_quality, mode,
    case when by_fastener then 'fastener' end, null, cast(failed_component = ${component} and not by_fastener as integer)
  from work_placed_failures where unit_id = ${unitId}
  union all select 'inspections', inspection_id, cast(wheel_end as double), at_miles, cast(date as varchar), miles_quality, kind, leak_at,
    case when checked = 'yes' then cast(leak as double) end, cast(checked = 'yes' and leak is not null as integer)
  from work_placed_inspections where unit_id = ${unitId}
) order by wheel_end, miles, day, "table", id`;

/** The stretch of odometer over which the vehicle was watched. */
export const unitSpanStatement = (unitId: string): Statement => sql`
select from_miles, to_miles, start_miles from work_unit_spans where unit_id = ${unitId}`;
