import type { Component } from '../../shared/vocabulary.ts';
import { identifier, sql, type Statement } from '../engine/statement.ts';
import { sameJob } from './life-ends.ts';

/** Failures of the wheel end across the axle whose repair was on the job of the renewal that ended the life. */
const mateFailures = (component: Component): Statement => sql`
select r.service_id, min(x.failure_id) as mate_failure_id, cast(count(distinct x.failure_id) as double) as mate_failures
from ${identifier(`work_renewals_${component}`)} r join work_mates w on w.wheel_end = r.wheel_end
join ${identifier(`work_slotted_${component}`)} x on x.wheel_end = w.mate and not x.by_fastener
join services m on m.service_id = coalesce(case when x.repair_known then x.repair_service_id end, x.repaired_by)
  and m.unit_id = r.unit_id and ${sameJob}
group by r.service_id`;

/** Services of the wheel end across the axle, on the job of the renewal, whose reason says that end failed. */
const mateOrders = (component: Component): Statement => sql`
select r.service_id, min(m.service_id) as mate_service_id, min(m.reason) as mate_reason, cast(count(*) as double) as mate_orders
from ${identifier(`work_renewals_${component}`)} r join work_mates w on w.wheel_end = r.wheel_end
join work_placed_services m on m.wheel_end = w.mate and ${sameJob}
where m.reason in ('failure', 'comeback')
  or (m.reason = 'inspection-finding' and list_contains(m.parts, 'seal') and not list_has_any(m.parts, ['bearings', 'hub']))
group by r.service_id`;

/** Failures of other components at the wheel end that the renewal repaired. */
const otherFailures = (component: Component): Statement => sql`
select repaired_by as service_id, min(failure_id) as other_failure_id, min_by(mode, failure_id) as other_mode,
  cast(count(*) as double) as other_failures
from ${identifier(`work_slotted_${component}`)}
where failed_component <> ${component} and not by_fastener and repaired_by is not null group by repaired_by`;

/** Rows of the wheel end dated after its unit left: they are not used, and would be had it not left. */
const afterLeaving = sql`
select w.wheel_end, cast(count(*) as double) as rows_after from (
  select unit_id, axle, side, date from services union all select unit_id, axle, side, date from failures
) e join work_wheel_ends w on w.unit_id = e.unit_id and w.axle = e.axle and w.side = e.side
join work_unit_spans s on s.unit_id = e.unit_id where e.date > s.out_date group by w.wheel_end`;

/** Everything that decided how one life began and ended, in one row: the engine's side of `LifeFacts`. */
export const lifeFactsStatement = (component: Component, lifeId: string): Statement => sql`
with life as (select * from ${identifier(`lives_${component}`)} where life_id = ${lifeId})
select l.life_id, l.unit_id, l.axle, l.side, l.role, l.state, l.mode, l.install_kind, l.inferred, l.mileage_quality, l.mate_life_id,
  cast(l.wheel_end as double) as wheel_end, cast(l.slot as double) as slot,
  o.start_miles, cast(o.start_date as varchar) as start_date, o.service_id as start_service_id, o.start_quality,
  o.begin_miles, o.end_miles, o.end_quality, l.exposure_miles, l.entry_miles, l.exit_miles,
  f.failure_id, f.mode as failure_mode, cast(f.date as varchar) as failure_date, f.found_miles, q.repaired_by,
  (select cast(count(*) as double) from ${identifier(`work_slotted_${component}`)} s where s.wheel_end = l.wheel_end and s.slot = l.slot
    and s.failed_component = ${component} and not s.by_fastener) as reports,
  n.service_id as next_service_id, cast(n.date as varchar) as next_date, n.at_miles as next_miles, n.reason as next_reason,
  n.deep as next_deep, n.with_seal as next_with_seal, r.replaced as next_replaced, r.hub_build as next_hub_build, n.state as next_state,
  n.other_failed, n.mate_failed_by_row, n.mate_failed_by_order,
  x.other_failure_id, x.other_mode, coalesce(x.other_failures, 0) as other_failures,
  mf.mate_failure_id, coalesce(mf.mate_failures, 0) as mate_failures,
  mo.mate_service_id, mo.mate_reason, coalesce(mo.mate_orders, 0) as mate_orders,
  u.has_left, cast(u.out_date as varchar) as out_date, u.to_miles, k.last_day <= w.observed_to as known_to_the_end,
  cast(k.last_day as varchar) as last_day, coalesce(a.rows_after, 0) as rows_after,
  cast(w.observed_from as varchar) as observed_from, cast(w.observed_to as varchar) as observed_to
from life l cross join observation w
join ${identifier(`work_observed_${component}`)} o on o.wheel_end = l.wheel_end and o.slot = l.slot
join work_unit_spans u on u.unit_id = l.unit_id
join work_unit_miles k on k.unit_id = l.unit_id
left join ${identifier(`work_failed_slots_${component}`)} f on f.wheel_end = l.wheel_end and f.slot = l.slot
left join ${identifier(`work_slotted_${component}`)} q on q.failure_id = f.failure_id and q.wheel_end = l.wheel_end
left join ${identifier(`work_renewal_states_${component}`)} n on n.wheel_end = l.wheel_end and n.ordinal = l.slot + 1
left join ${identifier(`work_renewals_${component}`)} r on r.service_id = n.service_id
left join (${otherFailures(component)}) x on x.service_id = n.service_id
left join (${mateFailures(component)}) mf on mf.service_id = n.service_id
left join (${mateOrders(component)}) mo on mo.service_id = n.service_id
left join (${afterLeaving}) a on a.wheel_end = l.wheel_end`;
