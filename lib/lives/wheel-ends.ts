import type { Choices } from '../../shared/choices.ts';
import type { Statement } from '../engine/statement.ts';
import { sql } from '../engine/statement.ts';
import { mayBeFilled } from './filled-miles.ts';

/**
 * Every wheel end of every unit, records or none: it runs miles all the same. Without a units
 * table the wheel ends are those that any record names.
 */
const wheelEnds = sql`
create or replace table work_wheel_ends as
with axles as (
  select unit_id, duty, unnest(roles) as role, generate_subscripts(roles, 1) as axle
  from (select unit_id, duty, regexp_split_to_array(trim(axle_roles), '[; ]+') as roles from fleet_units)
), named as (
  select unit_id, axle, side from fleet_services union select unit_id, axle, side from fleet_failures
  union select unit_id, axle, side from fleet_inspections
), ends as (
  select unit_id, cast(axle as integer) as axle, side, role, duty from axles cross join (values ('left'), ('right')) s(side)
  union all select unit_id, cast(axle as integer), side, null, null from named where not exists (select 1 from fleet_units)
)
select row_number() over (order by unit_id, axle, side) as wheel_end, * from ends`;

const mates = sql`
create or replace table work_mates as
select w.wheel_end, m.wheel_end as mate from work_wheel_ends w join work_wheel_ends m
on m.unit_id = w.unit_id and m.axle = w.axle and m.side <> w.side`;

/** What the units table says once its own miles were judged; those set aside are not known. */
const unitsJudged = sql`
create or replace table work_units_judged as
select u.unit_id, u.in_service_date, u.out_date, u.acquired,
  case when b.rule is not null then b.used_miles when e.unit_id is not null and u.acquired = 'new' then coalesce(u.in_service_miles, began.low_miles)
    else u.in_service_miles end as in_service_miles,
  case when l.rule is not null then l.used_miles when u.out_date is null then u.out_miles + coalesce(s.shift_miles, 0) else u.out_miles end as out_miles
from fleet_units u
left join work_mile_verdicts b on b.unit_id = u.unit_id and b.day = u.in_service_date and b.miles = u.in_service_miles
left join work_mile_verdicts l on l.unit_id = u.unit_id and l.day = u.out_date and l.miles = u.out_miles
left join work_meter_shifts s on s.unit_id = u.unit_id
left join work_like_units e on e.unit_id = u.unit_id
left join work_mile_points began on began.unit_id = e.unit_id and began.day = u.in_service_date`;

/**
 * The stretch of odometer, and of days, over which each unit was observed: from the start of its
 * window, or its start in the fleet, or the first known miles, to the window's end, its leaving, or
 * the last known miles. `start_miles` is its odometer when new, where the first parts' lives begin. A
 * unit known on a single day before the window has no `from_miles`: it was not observed. Work recorded
 * after the last known miles, at miles carried on to its day, shows that the unit ran on until then.
 */
const unitSpans = (choices: Choices): Statement => sql`
create or replace table work_unit_spans as
with bounds as (
  select k.unit_id, k.first_day, k.first_miles, k.last_day, k.last_miles,
    coalesce(w.observed_from, o.observed_from) as observed_from, coalesce(w.observed_to, o.observed_to) as observed_to, e.unit_id is not null as estimated,
    u.in_service_date, u.in_service_miles, u.out_date, u.out_miles, u.acquired,
    coalesce(u.in_service_miles, case when i.quality = 'interpolated' then i.miles end) as began_miles, l.miles as left_at_miles,
    coalesce(f.low_miles, f.miles) as from_miles, t.miles as to_miles,
    coalesce(u.out_date <= coalesce(w.observed_to, o.observed_to), u.out_miles is not null) as has_left
  from work_unit_miles k cross join observation o
  left join work_unit_windows w on w.unit_id = k.unit_id
  left join work_units_judged u on u.unit_id = k.unit_id
  left join work_like_units e on e.unit_id = k.unit_id
  left join work_day_miles i on i.unit_id = k.unit_id and i.day = u.in_service_date
  left join work_day_miles l on l.unit_id = k.unit_id and l.day = u.out_date
  left join work_day_miles f on f.unit_id = k.unit_id and f.day = coalesce(w.observed_from, o.observed_from)
  left join work_day_miles t on t.unit_id = k.unit_id and t.day = coalesce(w.observed_to, o.observed_to)
), worked as (
  select unit_id, date as day, miles is null as blank from fleet_services union select unit_id, date, miles is null from fleet_inspections
  union select unit_id, date, miles is null from fleet_failures
), late as (
  select b.unit_id, max(d.day) as day, max(d.miles) as miles
  from bounds b join worked w on w.unit_id = b.unit_id and w.day > b.last_day and w.day <= b.observed_to
    and (not b.has_left or w.day <= b.out_date)
  join work_day_miles d on d.unit_id = w.unit_id and d.day = w.day and (not w.blank or ${mayBeFilled(choices)})
  where d.miles is not null group by b.unit_id
), spans as (
select unit_id, has_left, out_date, observed_from, observed_to, estimated,
  case when in_service_date >= observed_from then coalesce(began_miles, first_miles)
    when first_day > observed_from then greatest(first_miles, coalesce(in_service_miles, 0))
    else from_miles end as from_miles,
  case when has_left then coalesce(out_miles, case when last_day >= out_date then left_at_miles end, last_miles)
    when last_day <= observed_to then last_miles else to_miles end as to_miles,
  case when acquired = 'new' or (acquired is null and in_service_miles <= 1000) then in_service_miles end as start_miles,
  in_service_date,
  case when in_service_date >= observed_from then in_service_date else greatest(first_day, observed_from) end as from_day,
  case when has_left and (out_miles is not null or last_day >= out_date) then coalesce(out_date, last_day)
    when has_left then last_day else least(last_day, observed_to) end as to_day
from bounds
)
select s.* replace (greatest(s.to_miles, coalesce(l.miles, s.to_miles)) as to_miles, greatest(s.to_day, coalesce(l.day, s.to_day)) as to_day)
from spans s left join late l on l.unit_id = s.unit_id`;

/** Stages that make `work_wheel_ends`, `work_mates` and `work_unit_spans`. */
export const wheelEndStages = (choices: Choices): readonly Statement[] => [
  wheelEnds,
  mates,
  unitsJudged,
  unitSpans(choices),
];
