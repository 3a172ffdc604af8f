import { components, type Component } from '../../shared/vocabulary.ts';
import { identifier, sql, type Statement } from '../engine/statement.ts';
import { renewsColumn } from './procedure-tables.ts';

/** The version of the procedure valid on each day that has services: few days, whatever the fleet. */
const versionsByDay = sql`
create or replace table work_procedure_days as
select d.date, v.version from (select distinct date from work_placed_services) d
asof left join procedure_versions v on d.date >= v.valid_from`;

/** Services with the procedure part valid on their date; shared by renewals and deviations. */
const servicesByPart = sql`
create or replace table work_judged_services as
select s.*, v.version, p.* exclude (version, hub_build, role) from work_placed_services s
join work_procedure_days v on v.date = s.date
left join procedure_parts p on p.version = v.version and p.hub_build = s.hub_build and p.role is not distinct from s.role`;

export const judgedServices: readonly Statement[] = [versionsByDay, servicesByPart];

/**
 * Services that start a life of the component (record contract 5.1): its part or the hub is among
 * the replaced, for unitized builds only the hub; or the procedure renews it whenever the hub comes
 * off and bearings, spacer or hub were replaced, then marked inferred. Rows of one wheel end on one
 * day at the same miles are one renewal. They are ordered by what tells their order alone: the
 * hundred thousands of a large fleet would not fit beside themselves with all their columns.
 */
const renewals = (component: Component): Statement => sql`
create or replace table ${identifier(`work_renewals_${component}`)} as
with judged as (
  select rowid as place, wheel_end, at_miles, date, service_id,
    case when hub_build = 'unitized' then list_contains(parts, 'hub')
      else list_has_any(parts, ['hub', ${components[component].part}]) end as listed,
    coalesce(${identifier(renewsColumn(component))}, 0) = 1 and list_has_any(parts, ['bearings', 'spacer', 'hub']) as implied
  from work_judged_services
), marked as (
  select place, listed, dense_rank() over (partition by wheel_end order by at_miles, date) as ordinal,
    row_number() over (partition by wheel_end, at_miles, date order by listed desc, service_id) as nth
  from judged where listed or implied
)
select s.*, m.ordinal, m.nth, not m.listed as inferred from work_judged_services s join marked m on m.place = s.rowid`;

/**
 * Every failure with the slot of the component's life it falls in: slot k begins at the k-th
 * renewal, slot 0 at the start of the wheel end. On one day at the same miles a failure comes
 * before the renewal. A link to a renewal puts the failure in the life that renewal ended, even
 * where the renewal was written down with earlier miles (5.4).
 */
const slottedFailures = (component: Component): Statement => sql`
create or replace table ${identifier(`work_slotted_${component}`)} as
with starts as (select wheel_end, at_miles, date, ordinal, service_id from ${identifier(`work_renewals_${component}`)} where nth = 1),
tokens as (
  select wheel_end, at_miles, date, 1 as kind, null as failure_id from starts
  union all select wheel_end, at_miles, date, 0, failure_id from work_placed_failures
), counted as (
  select *, cast(coalesce(sum(kind) over (partition by wheel_end order by at_miles, date, kind rows unbounded preceding), 0) as integer) as slot
  from tokens
), linked as (
  select f.*, c.slot as slot_by_miles, l.ordinal as repair_ordinal
  from work_placed_failures f join counted c on c.failure_id = f.failure_id
  left join ${identifier(`work_renewals_${component}`)} l on l.service_id = f.repair_service_id and l.wheel_end = f.wheel_end
), settled as (
  select l.*, case when slot_by_miles >= repair_ordinal then repair_ordinal - 1
      when repair_ordinal = slot_by_miles + 2 and n.at_miles = l.at_miles and n.date = l.date then slot_by_miles + 1
      else slot_by_miles end as slot
  from linked l left join starts n on n.wheel_end = l.wheel_end and n.ordinal = l.slot_by_miles + 1
)
select s.*, least(s.at_miles, n.at_miles) as found_miles,
  case when coalesce(repair_known, false) then l.service_id
    when n.date - s.date between 0 and 30 and n.at_miles - s.at_miles between 0 and 3000 then n.service_id end as repaired_by
from settled s left join starts n on n.wheel_end = s.wheel_end and n.ordinal = s.slot + 1
left join starts l on l.wheel_end = s.wheel_end and l.ordinal = s.repair_ordinal`;

/** Services that repaired some failure: by the link, else the first renewal soon after it (5.4). */
const repairs = (component: Component): Statement => sql`
create or replace table ${identifier(`work_repairs_${component}`)} as
select distinct coalesce(case when repair_known then repair_service_id end, repaired_by) as service_id, wheel_end
from ${identifier(`work_slotted_${component}`)} where not by_fastener and (repair_known or repaired_by is not null)`;

export const renewalStages = (component: Component): readonly Statement[] => [
  renewals(component),
  slottedFailures(component),
  repairs(component),
];
