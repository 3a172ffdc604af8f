import type { Component } from '../../shared/vocabulary.ts';
import { identifier, sql, type Statement } from '../engine/statement.ts';
import { sameJob } from './life-ends.ts';

const tables = (component: Component) => {
  const named = (name: string) => identifier(`${name}_${component}`);
  return { slotted: named('work_slotted'), renewals: named('work_renewals') };
};

/** What decided how one life began and ended, in one row, but for the rows that name a cause. */
export const lifeFactsStatement = (component: Component, lifeId: string): Statement => sql`
with life as (select * from ${identifier(`lives_${component}`)} where life_id = ${lifeId}),
slots as (select * from ${identifier(`work_observed_${component}`)} where wheel_end = (select wheel_end from life) and slot = (select slot from life)),
failed as (select * from ${identifier(`work_failed_slots_${component}`)} where wheel_end = (select wheel_end from life) and slot = (select slot from life)),
next as (select * from ${identifier(`work_renewal_states_${component}`)} where wheel_end = (select wheel_end from life) and ordinal = (select slot + 1 from life))
select l.life_id, l.unit_id, l.axle, l.side, l.role, l.state, l.mode, l.install_kind, l.inferred, l.mileage_quality, l.mate_life_id,
  cast(l.wheel_end as double) as wheel_end, cast(l.slot as double) as slot,
  o.start_miles, cast(o.start_date as varchar) as start_date, o.service_id as start_service_id, o.start_quality,
  o.begin_miles, o.end_miles, o.end_quality, l.exposure_miles, l.entry_miles, l.exit_miles,
  f.failure_id, f.mode as failure_mode, cast(f.date as varchar) as failure_date, f.found_miles,
  n.service_id as next_service_id, cast(n.date as varchar) as next_date, n.at_miles as next_miles, n.reason as next_reason,
  n.deep as next_deep, n.with_seal as next_with_seal, n.state as next_state,
  n.other_failed, n.mate_failed_by_row, n.mate_failed_by_order,
  cast(w.observed_from as varchar) as observed_from, cast(w.observed_to as varchar) as observed_to
from life l join work_unit_spans w on w.unit_id = l.unit_id join slots o on true left join failed f on true left join next n on true`;

/** The unit's own end, and rows of the wheel end dated after it: they are not used, and would be had it not left. */
export const unitEndStatement = (unitId: string, axle: number, side: string): Statement => sql`
select s.has_left, cast(s.out_date as varchar) as out_date, k.last_day <= s.observed_to as known_to_the_end, cast(k.last_day as varchar) as last_day,
  (select cast(count(*) as double) from (
    select date from fleet_services where unit_id = ${unitId} and axle = ${axle} and side = ${side}
    union all select date from fleet_failures where unit_id = ${unitId} and axle = ${axle} and side = ${side}) e where e.date > s.out_date) as rows_after
from work_unit_spans s join work_unit_miles k on k.unit_id = s.unit_id where s.unit_id = ${unitId}`;

/** The failure that ended a life: its repair by this component's renewals, and how many rows report its episode. */
export const failureStatement = (
  component: Component,
  wheelEnd: number,
  slot: number,
  failureId: string,
): Statement => sql`
select min(case when failure_id = ${failureId} then repaired_by end) as repaired_by, cast(count(*) as double) as reports
from ${tables(component).slotted} where wheel_end = ${wheelEnd} and slot = ${slot} and failed_component = ${component} and not by_fastener`;

/** The row of the renewal that ended a life, and the other component's failures that it repaired. */
export const renewalStatement = (component: Component, wheelEnd: number, serviceId: string): Statement => sql`
with other as (
  select * from ${tables(component).slotted}
  where wheel_end = ${wheelEnd} and failed_component <> ${component} and not by_fastener and repaired_by = ${serviceId}
)
select r.replaced, r.hub_build, (select min(failure_id) from other) as other_failure_id,
  (select min_by(mode, failure_id) from other) as other_mode, (select cast(count(*) as double) from other) as other_failures
from ${tables(component).renewals} r where r.wheel_end = ${wheelEnd} and r.service_id = ${serviceId}`;

/**
 * What the wheel end across the axle has to do with a renewal: its failures whose repair was on the
 * same job, and its services on that job whose reason says that it failed.
 */
export const mateStatement = (component: Component, wheelEnd: number, serviceId: string): Statement => sql`
with r as (select * from ${tables(component).renewals} where wheel_end = ${wheelEnd} and service_id = ${serviceId}),
mate as (select mate from work_mates where wheel_end = ${wheelEnd}),
failed as (
  select distinct x.failure_id from r join ${tables(component).slotted} x on x.wheel_end in (select mate from mate) and not x.by_fastener
  join fleet_services m on m.service_id = coalesce(case when x.repair_known then x.repair_service_id end, x.repaired_by)
    and m.unit_id = r.unit_id and ${sameJob}
), ordered as (
  select m.service_id, m.reason from r join work_placed_services m on m.wheel_end in (select mate from mate) and ${sameJob}
  where m.reason in ('failure', 'comeback')
    or (m.reason = 'inspection-finding' and list_contains(m.parts, 'seal') and not list_has_any(m.parts, ['bearings', 'hub']))
)
select (select min(failure_id) from failed) as mate_failure_id, (select cast(count(*) as double) from failed) as mate_failures,
  (select min(service_id) from ordered) as mate_service_id, (select min_by(reason, service_id) from ordered) as mate_reason,
  (select cast(count(*) as double) from ordered) as mate_orders`;
