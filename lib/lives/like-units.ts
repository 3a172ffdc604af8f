import { sql, type Statement } from '../engine/statement.ts';

/** Fewer units than this are no measure of how far such units go. */
const fewestLikeUnits = 3;

/** What makes units alike: their kind, else what their axles are; and their duty where enough share it. */
const kinds = sql`
create or replace table work_unit_kinds as
select u.unit_id, coalesce(u.unit_kind, case when regexp_full_match(u.axle_roles, '(trailer[; ]*)+') then 'trailer' else u.axle_roles end) as kind, u.duty,
  k.miles_a_day, coalesce(k.last_day > k.first_day, false) as known
from fleet_units u left join work_unit_miles k on k.unit_id = u.unit_id`;

/** Units with no two days of known miles, and the median pace of units like them: those of their duty too, where there are enough. */
const likeUnits = (on: boolean): Statement => sql`
create or replace table work_like_units as
select n.unit_id, coalesce(d.pace, k.pace) as miles_a_day
from (select * from work_unit_kinds where not known and ${on ? 1 : 0} = 1) n
left join (select kind, duty, median(miles_a_day) as pace from work_unit_kinds where known and duty is not null group by kind, duty having count(*) >= ${fewestLikeUnits}) d
  on d.kind = n.kind and d.duty = n.duty
left join (select kind, median(miles_a_day) as pace from work_unit_kinds where known group by kind having count(*) >= ${fewestLikeUnits}) k
  on k.kind = n.kind
where coalesce(d.pace, k.pace) is not null`;

/**
 * Miles of such a unit, from its first day to its last as the units table and the window tell them,
 * through the one reading it may have; without one it counts from 0 on its first day.
 */
const estimatedPoints = sql`
insert into work_mile_points
with spans as (
  select e.unit_id, e.miles_a_day, p.day as known_day, p.low_miles as known_miles,
    least(coalesce(u.in_service_date, w.observed_from, o.observed_from), p.day) as first_day,
    greatest(least(coalesce(u.out_date, w.observed_to, o.observed_to), coalesce(w.observed_to, o.observed_to)), p.day) as last_day
  from work_like_units e join fleet_units u on u.unit_id = e.unit_id cross join observation o
  left join work_unit_windows w on w.unit_id = e.unit_id left join work_mile_points p on p.unit_id = e.unit_id
), ends as (
  select unit_id, first_day as day, greatest(coalesce(known_miles - miles_a_day * (known_day - first_day), 0), 0) as miles from spans
  union all select unit_id, last_day, coalesce(known_miles + miles_a_day * (last_day - known_day), miles_a_day * (last_day - first_day)) from spans where last_day > first_day
)
select unit_id, day, miles, miles from ends e where not exists (select 1 from work_mile_points p where p.unit_id = e.unit_id and p.day = e.day)`;

/** Stages that make `work_like_units` and give their miles to `work_mile_points`; on = the repair is not switched off. */
export const likeUnitStages = (on: boolean): readonly Statement[] => [kinds, likeUnits(on), estimatedPoints];
