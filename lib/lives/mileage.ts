import type { Statement } from '../engine/statement.ts';
import { sql } from '../engine/statement.ts';
import type { Stage, TableInPieces } from './stages.ts';

/** What every table says of a unit's miles; `trust` as in `MeterPoint`. */
export const saidMiles = sql`
  select unit_id, date as day, miles, case when source = 'estimated' then 0 else 2 end as trust from fleet_readings
  union all select unit_id, in_service_date, in_service_miles, 2 from fleet_unit_rows
  union all select unit_id, out_date, out_miles, 2 from fleet_unit_rows
  union all select unit_id, date, miles, 1 from fleet_services
  union all select unit_id, date, miles, 1 from fleet_inspections
  union all select unit_id, date, miles, 1 from fleet_failures`;

/** The unit's known miles by day from every table, as written. */
const milePoints = sql`
create or replace table work_mile_points as
select unit_id, day, min(miles) as low_miles, max(miles) as high_miles
from (${saidMiles}) where day is not null and miles is not null group by unit_id, day`;

/** The stages before readings are judged. */
export const writtenMiles: readonly Statement[] = [milePoints];

const milesOfUnits = (points: Statement) => sql`
select unit_id, min(day) as first_day, max(day) as last_day, arg_min(low_miles, day) as first_miles, max(high_miles) as last_miles,
  case when max(day) > min(day) then (arg_max(high_miles, day) - arg_min(low_miles, day)) / (max(day) - min(day)) end as miles_a_day
from ${points} group by unit_id`;

const unitMiles = sql`create or replace table work_unit_miles as ${milesOfUnits(sql`work_mile_points`)}`;

/** Units that have no two known days until their miles are estimated. */
const estimatedUnitMiles: readonly Statement[] = [
  sql`delete from work_unit_miles where unit_id in (select unit_id from work_like_units)`,
  sql`insert into work_unit_miles ${milesOfUnits(sql`(select p.* from work_mile_points p semi join work_like_units e on e.unit_id = p.unit_id)`)}`,
];

/** Days on which a unit's miles are wanted: rows without miles to use, the window's ends, the unit's own ends. */
const wantedDays = sql`
create or replace table work_wanted_days as
select distinct unit_id, day from (
  select unit_id, date as day from fleet_services where miles is null
  union all select unit_id, date from fleet_inspections where miles is null
  union all select unit_id, date from fleet_failures where miles is null
  union all select unit_id, day from work_mile_verdicts where used_miles is null
  union all select unit_id, in_service_date from fleet_units
  union all select unit_id, out_date from fleet_units
  union all select k.unit_id, coalesce(w.observed_from, o.observed_from) from work_unit_miles k cross join observation o left join work_unit_windows w on w.unit_id = k.unit_id
  union all select k.unit_id, coalesce(w.observed_to, o.observed_to) from work_unit_miles k cross join observation o left join work_unit_windows w on w.unit_id = k.unit_id
) where day is not null`;

/**
 * Miles a day not exceeded on half of a unit's days, for units whose rows without miles lie outside
 * their known ones: a long pause, or a busy month, moves it less than it would an average.
 */
const medianPaces = sql`
create or replace table work_median_paces as
with asked as (
  select distinct w.unit_id from work_wanted_days w join work_unit_miles k on k.unit_id = w.unit_id
  where (w.day < k.first_day or w.day > k.last_day) and k.miles_a_day is not null
), stretches as (
  select p.unit_id, day - lag(day) over unit as days, (low_miles - lag(high_miles) over unit) / (day - lag(day) over unit) as pace
  from work_mile_points p semi join asked a on a.unit_id = p.unit_id window unit as (partition by p.unit_id order by day)
), passed as (
  select unit_id, pace, sum(days) over (partition by unit_id order by pace, days rows unbounded preceding) as passed, sum(days) over (partition by unit_id) as days
  from stretches where pace >= 0
)
select unit_id, min(pace) as miles_a_day from passed where passed * 2 >= days group by unit_id`;

/**
 * Miles on the wanted days: linear in days between the nearest known days, carried on at the unit's
 * median pace outside them. `low_miles` is the start of a known day, `miles` its end.
 */
const dayMiles: TableInPieces = {
  table: 'work_day_miles',
  by: 'unit_id',
  rows: (piece) => sql`
with points as (select * from work_mile_points where ${piece})
select w.unit_id, w.day,
  case when b.day = w.day then b.high_miles
    when b.day is not null and a.day is not null then b.high_miles + (a.low_miles - b.high_miles) * (w.day - b.day) / (a.day - b.day)
    when b.day is not null then b.high_miles + u.miles_a_day * (w.day - b.day)
    when u.miles_a_day is not null then greatest(a.low_miles - u.miles_a_day * (a.day - w.day), 0) end as miles,
  case when b.day = w.day then b.low_miles end as low_miles,
  case when e.unit_id is null and b.day is not null and a.day is not null then 'interpolated' else 'extrapolated' end as quality,
  case when e.unit_id is not null then 'like-units' when b.day is not null and a.day is not null then 'interpolated' else 'extrapolated' end as rule
from (select * from work_wanted_days where ${piece}) w
asof left join points b on b.unit_id = w.unit_id and b.day <= w.day
asof left join points a on a.unit_id = w.unit_id and a.day >= w.day
left join work_median_paces u on u.unit_id = w.unit_id
left join work_like_units e on e.unit_id = w.unit_id`,
};

/** The stage once readings are judged: `work_mile_points` then holds miles run, whatever the meter said. */
export const judgedMiles: readonly Statement[] = [unitMiles];
/** The stages once units without an odometer have estimated miles. */
export const milesByDay: readonly Stage[] = [...estimatedUnitMiles, wantedDays, medianPaces, dayMiles];
