import type { Component } from '../../shared/vocabulary.ts';
import { identifier, sql, type Statement } from '../engine/statement.ts';

/**
 * The component's failures that end a life (the first of each slot), and what all rows of the
 * episode say of the lining: one yes is a yes, else one no is a no (5.3, 5.4).
 */
const failedSlots = (component: Component): Statement => sql`
create or replace table ${identifier(`work_failed_slots_${component}`)} as
with own as (
  select *, row_number() over (partition by wheel_end, slot order by found_miles, date, failure_id) as nth,
    case when bool_or(coalesce(lining_contaminated = 'yes', false)) over (partition by wheel_end, slot) then 'yes'
      when bool_or(coalesce(lining_contaminated = 'no', false)) over (partition by wheel_end, slot) then 'no' else 'unknown' end as lining
  from ${identifier(`work_slotted_${component}`)} where failed_component = ${component} and not by_fastener
)
select wheel_end, slot, failure_id, mode, date, found_miles, miles_quality, lining, in_window from own where nth = 1`;

/** One order where both rows name theirs, else one day. */
export const sameJob = sql`case when m.order_id is not null and r.order_id is not null then m.order_id = r.order_id else m.date = r.date end`;

/**
 * Why each renewal happened where its life had no failure of its own: another component failed
 * there, or the mate end failed on the same job, by a failure row or by its order's reason.
 */
const renewalCauses = (component: Component): Statement => sql`
create or replace table ${identifier(`work_renewal_causes_${component}`)} as
with starts as (
  select wheel_end, ordinal, service_id, unit_id, order_id, reason, at_miles, date, miles_quality, in_window, parts
  from ${identifier(`work_renewals_${component}`)} where nth = 1
), other as (
  select distinct repaired_by as service_id from ${identifier(`work_slotted_${component}`)}
  where failed_component <> ${component} and not by_fastener and repaired_by is not null
), mate_orders as (
  select distinct r.service_id from starts r join work_mates w on w.wheel_end = r.wheel_end
  join work_placed_services m on m.wheel_end = w.mate and ${sameJob}
  where m.reason in ('failure', 'comeback')
    or (m.reason = 'inspection-finding' and list_contains(m.parts, 'seal') and not list_has_any(m.parts, ['bearings', 'hub']))
), mate_rows as (
  select distinct r.service_id from starts r join work_mates w on w.wheel_end = r.wheel_end
  join ${identifier(`work_repairs_${component}`)} p on p.wheel_end = w.mate
  join fleet_services m on m.service_id = p.service_id and m.unit_id = r.unit_id and ${sameJob}
)
select r.wheel_end, r.ordinal, r.service_id, r.reason, r.at_miles, r.date, r.miles_quality, r.in_window,
  list_has_any(r.parts, ['bearings', 'hub']) as deep, list_contains(r.parts, 'seal') as with_seal,
  o.service_id is not null as other_failed,
  f.service_id is not null as mate_failed_by_row, m.service_id is not null as mate_failed_by_order
from starts r left join other o on o.service_id = r.service_id
left join mate_rows f on f.service_id = r.service_id left join mate_orders m on m.service_id = r.service_id`;

/** A failing reason without a failure row: what the parts replaced say of it (5.3), for the component asked about. */
const withoutRow: Record<Component, Statement> = {
  seal: sql`when reason in ('failure', 'comeback', 'inspection-finding') and not deep then 'failed'
    when reason in ('failure', 'comeback') then 'other-failure'`,
  gasket: sql`when reason in ('failure', 'comeback') and deep then 'other-failure'
    when reason in ('failure', 'comeback', 'inspection-finding') and with_seal and not deep then 'other-failure'`,
  bearing: sql``,
};

/** The state in which each renewal ended the life before it, were there no failure row of the component in that life. */
const renewalStates = (component: Component): Statement => sql`
create or replace table ${identifier(`work_renewal_states_${component}`)} as
select *, case when other_failed then 'other-failure'
    when reason in ('planned', 'brake-work') or mate_failed_by_row then 'planned'
    when mate_failed_by_order and coalesce(reason = 'other', true) then 'planned'
    ${withoutRow[component]}
    else 'removed-unknown' end as state
from ${identifier(`work_renewal_causes_${component}`)}`;

export const lifeEndStages = (component: Component): readonly Statement[] => [
  failedSlots(component),
  renewalCauses(component),
  renewalStates(component),
];
