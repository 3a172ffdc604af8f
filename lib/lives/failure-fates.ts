import type { Component } from '../../shared/vocabulary.ts';
import { identifier, sql, type Statement } from '../engine/statement.ts';

/**
 * What became of every failure row for this component's lives: it ended a life, it was a further
 * report of one episode, it was of another component, or it could not be placed, with the reason.
 */
export const failureFates = (component: Component): Statement => sql`
create or replace table ${identifier(`failure_fates_${component}`)} as
with units_known as (select distinct unit_id from work_wheel_ends)
select f.failure_id, f.unit_id, f.axle, f.side, f.date, f.mode, l.life_id,
  case when l.life_id is not null then 'ended a life'
    when s.by_fastener then 'wheel lost through its fasteners: listed, not counted'
    when s.failure_id is not null and s.failed_component <> ${component} then 'another component'
    when f.date < coalesce(x.observed_from, o.observed_from) or f.date > coalesce(x.observed_to, o.observed_to) then 'outside the observation window'
    when s.failure_id is not null and d.failure_id <> f.failure_id then 'further report of an episode already counted'
    when u.unit_id is null then 'unit not in the units table'
    when w.wheel_end is null then 'the unit has no such axle'
    when s.failure_id is null and p.has_left then 'after the unit left'
    when s.failure_id is null then 'no miles known for the unit'
    else 'found before the unit was observed' end as fate
from fleet_failures f cross join observation o left join work_unit_windows x on x.unit_id = f.unit_id
left join ${identifier(`work_slotted_${component}`)} s on s.failure_id = f.failure_id
left join ${identifier(`work_failed_slots_${component}`)} d on d.wheel_end = s.wheel_end and d.slot = s.slot
left join ${identifier(`lives_${component}`)} l on l.end_id = f.failure_id and l.state = 'failed' and l.wheel_end = s.wheel_end
left join units_known u on u.unit_id = f.unit_id
left join work_wheel_ends w on w.unit_id = f.unit_id and w.axle = f.axle and w.side = f.side
left join work_unit_spans p on p.unit_id = f.unit_id`;

const componentEpisodes = (component: Component): Statement => sql`
select failure_id, wheel_end, ${component} as component, mode, date, found_miles, lining, false as inferred
from ${identifier(`work_failed_slots_${component}`)} where in_window`;

/** Modes that belong to no component: an episode lasts until the next service of that wheel end. */
const otherEpisodes = sql`
select failure_id, wheel_end, 'other' as component, mode, date, at_miles as found_miles, lining, false as inferred from (
  select *, row_number() over (partition by wheel_end, mode, jobs order by at_miles, date, failure_id) as nth,
    case when bool_or(coalesce(lining_contaminated = 'yes', false)) over (partition by wheel_end, mode, jobs) then 'yes'
      when bool_or(coalesce(lining_contaminated = 'no', false)) over (partition by wheel_end, mode, jobs) then 'no' else 'unknown' end as lining
  from (select *, sum(job) over (partition by wheel_end order by at_miles, date, job rows unbounded preceding) as jobs from (
    select wheel_end, at_miles, date, 0 as job, failure_id, mode, lining_contaminated, in_window from work_placed_failures where failed_component = 'other' and not by_fastener
    union all select wheel_end, at_miles, date, 1, null, null, null, null from work_placed_services)) where job = 0
) where nth = 1 and in_window`;

const inferredEpisodes = sql`
select null, l.wheel_end, 'seal', l.mode, s.date, l.observed_to_miles, 'unknown', true
from lives_seal l join work_renewals_seal s on s.service_id = l.end_id where l.inferred in ('end', 'both')`;

/**
 * One row per failure episode of any wheel-end mode, with the seal life in whose exposure it was
 * found; none where it fell between a leak and its repair.
 */
export const episodes = sql`
create or replace table episodes as
with found as (${componentEpisodes('seal')} union all ${componentEpisodes('gasket')} union all ${componentEpisodes('bearing')}
  union all ${otherEpisodes} union all ${inferredEpisodes}
), slotted as (
  select e.*, coalesce(s.slot, l.slot) as slot from found e
  left join work_slotted_seal s on s.failure_id = e.failure_id
  left join lives_seal l on e.failure_id is null and l.wheel_end = e.wheel_end and l.observed_to_miles = e.found_miles and l.inferred in ('end', 'both')
)
select coalesce(e.failure_id, l.life_id) as episode_id, w.unit_id, cast(w.axle as double) as axle, w.side, e.component, e.mode, e.date,
  e.found_miles as miles, l.life_id, e.lining as lining_contaminated, f.wheel_lost, e.inferred
from slotted e join work_wheel_ends w on w.wheel_end = e.wheel_end
left join lives_seal l on l.wheel_end = e.wheel_end and l.slot = e.slot
  and e.found_miles between l.observed_from_miles and greatest(l.observed_to_miles, l.observed_from_miles)
left join failures f on f.failure_id = e.failure_id`;
