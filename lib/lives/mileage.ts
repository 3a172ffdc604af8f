import type { Statement } from '../engine/statement.ts';
import { sql } from '../engine/statement.ts';

/**
 * The unit's known miles by day from every table. Repairs of backward, impossible or reset
 * readings belong here, before anything else reads miles.
 */
const milePoints = sql`
create or replace table work_mile_points as
with known as (
  select unit_id, date as day, miles from readings
  union all select unit_id, in_service_date, in_service_miles from units
  union all select unit_id, out_date, out_miles from units
  union all select unit_id, date, miles from services
  union all select unit_id, date, miles from inspections
  union all select unit_id, date, miles from failures
)
select unit_id, day, min(miles) as low_miles, max(miles) as high_miles
from known where day is not null and miles is not null group by unit_id, day`;

const unitMiles = sql`
create or replace table work_unit_miles as
select unit_id, min(day) as first_day, max(day) as last_day, arg_min(low_miles, day) as first_miles,
  max(high_miles) as last_miles,
  case when max(day) > min(day) then (arg_max(high_miles, day) - arg_min(low_miles, day)) / (max(day) - min(day)) end as miles_a_day
from work_mile_points group by unit_id`;

/** Days on which a unit's miles are wanted: rows without miles, the window's ends, the unit's own ends. */
const wantedDays = sql`
create or replace table work_wanted_days as
select distinct unit_id, day from (
  select unit_id, date as day from services where miles is null
  union all select unit_id, date from inspections where miles is null
  union all select unit_id, date from failures where miles is null
  union all select unit_id, in_service_date from units
  union all select unit_id, out_date from units
  union all select unit_id, observed_from from work_unit_miles, observation
  union all select unit_id, observed_to from work_unit_miles, observation
) where day is not null`;

/**
 * Miles on the wanted days: linear in days between the nearest known days, carried on at the
 * unit's overall pace outside them. `low_miles` is the start of a known day, `miles` its end.
 */
const dayMiles = sql`
create or replace table work_day_miles as
select w.unit_id, w.day,
  case when b.day = w.day then b.high_miles
    when b.day is not null and a.day is not null then b.high_miles + (a.low_miles - b.high_miles) * (w.day - b.day) / (a.day - b.day)
    when b.day is not null then b.high_miles + u.miles_a_day * (w.day - b.day)
    else greatest(a.low_miles - u.miles_a_day * (a.day - w.day), 0) end as miles,
  case when b.day = w.day then b.low_miles end as low_miles,
  case when b.day is not null and a.day is not null then 'interpolated' else 'extrapolated' end as quality
from work_wanted_days w
asof left join work_mile_points b on b.unit_id = w.unit_id and b.day <= w.day
asof left join work_mile_points a on a.unit_id = w.unit_id and a.day >= w.day
left join work_unit_miles u on u.unit_id = w.unit_id`;

/** Stages that make `work_mile_points`, `work_unit_miles` and `work_day_miles` (record contract, section 2, miles). */
export const mileageStages: readonly Statement[] = [milePoints, unitMiles, wantedDays, dayMiles];
