import { daysAMonth } from '../../shared/units.ts';
import { deviationCodes, deviationColumn } from '../../shared/deviations.ts';
import { addedLifeColumns, lifeColumns } from '../../shared/lives.ts';
import type { Component } from '../../shared/vocabulary.ts';
import { identifier, sql, type Statement } from '../engine/statement.ts';
import type { Stage, TableInPieces } from './stages.ts';

/** Every slot of every wheel end with how it began, how it ended, and the stretch of it that was observed. */
const slots = (component: Component): Statement => sql`
create or replace table ${identifier(`work_slots_${component}`)} as
with begun as (
  select w.wheel_end, 0 as slot, s.start_miles, null as service_id, case when s.estimated then 'extrapolated' else 'measured' end as start_quality, s.in_service_date as start_date, false as start_inferred
  from work_wheel_ends w join work_unit_spans s on s.unit_id = w.unit_id
  union all select wheel_end, ordinal, at_miles, service_id, miles_quality, date, inferred
  from ${identifier(`work_renewals_${component}`)} where nth = 1
)
select b.*, w.unit_id, u.from_miles, u.to_miles, u.from_day, f.failure_id, f.mode, f.lining, f.in_window as failure_in_window,
  n.service_id as end_service_id, case when f.failure_id is not null then least(f.date, n.date) when n.service_id is not null then n.date else u.to_day end as end_day,
  case when f.failure_id is not null then 'failed' when n.service_id is not null then n.state when u.has_left then 'unit-left' else 'running' end as state,
  coalesce(f.found_miles, n.at_miles, u.to_miles) as end_miles,
  case when f.failure_id is not null then f.miles_quality when n.service_id is not null then n.miles_quality when u.estimated then 'extrapolated' end as end_quality,
  greatest(coalesce(b.start_miles, u.from_miles), u.from_miles) as begin_miles,
  n.at_miles as next_miles, coalesce(f.in_window, n.in_window, true) as ended_in_window
from begun b join work_wheel_ends w on w.wheel_end = b.wheel_end
join work_unit_spans u on u.unit_id = w.unit_id and u.from_miles is not null
left join ${identifier(`work_failed_slots_${component}`)} f on f.wheel_end = b.wheel_end and f.slot = b.slot
left join ${identifier(`work_renewal_states_${component}`)} n on n.wheel_end = b.wheel_end and n.ordinal = b.slot + 1`;

/**
 * Slots that were observed at all, numbered. Left out are those that ended before the window and
 * stretches without a mile that no failure ended and no installation began.
 */
const observed = (component: Component): Statement => sql`
create or replace table ${identifier(`work_observed_${component}`)} as
with failures as (
  select wheel_end, slot,
    coalesce(sum(case when state = 'failed' then 1 else 0 end) over (partition by wheel_end order by slot rows between unbounded preceding and 1 preceding), 0) as prior_failures
  from ${identifier(`work_slots_${component}`)}
), numbered as (
  select s.*, cast(s.slot + 1 as double) as life_number, f.prior_failures
  from ${identifier(`work_slots_${component}`)} s join failures f on f.wheel_end = s.wheel_end and f.slot = s.slot
), kept as (
  select * from numbered where case
    when state = 'failed' then ended_in_window and end_miles >= begin_miles
    when end_service_id is not null then end_miles > begin_miles
    else end_miles > begin_miles or (end_miles = begin_miles and start_miles is not null) end
)
select *, case when state = 'failed' and start_miles is not null then greatest(end_miles, start_miles + 1) else end_miles end as exit_at_miles,
  greatest(case when state = 'failed' and start_miles is not null then greatest(end_day, start_date + 1) else end_day end, begin_day) as exit_day
from (select *, greatest(start_date, from_day) as begin_day from kept)`;

/** Lives over which a meter was changed and nobody wrote down how far the unit had run by then. */
const acrossGaps = (component: Component): Statement => sql`
create or replace table ${identifier(`work_across_gaps_${component}`)} as
select distinct o.wheel_end, o.slot from ${identifier(`work_observed_${component}`)} o
join work_meter_gaps g on g.unit_id = o.unit_id and g.at_miles >= coalesce(o.start_miles, o.begin_miles) and g.at_miles < o.end_miles`;

/** The last check without a leak in each life, strictly before it ended (5.5). */
const cleanChecks = (component: Component): Statement => sql`
create or replace table ${identifier(`work_clean_checks_${component}`)} as
select o.wheel_end, o.slot, max(c.at_miles) as clean_miles, arg_max(c.date, c.at_miles) as clean_day
from ${identifier(`work_observed_${component}`)} o join work_checks c on c.wheel_end = o.wheel_end
  and c.at_miles > o.start_miles and c.at_miles <= o.end_miles and (c.at_miles < o.end_miles or o.state <> 'failed')
group by o.wheel_end, o.slot`;

const onsetLower = (component: Component): Statement =>
  component === 'bearing'
    ? sql`null`
    : sql`case when start_miles is null then null when state in ('planned', 'other-failure') then exit_at_miles - start_miles
        else coalesce(clean_miles - start_miles, 0) end`;

const onsetUpper = (component: Component): Statement =>
  component === 'bearing' ? sql`null` : sql`case when state = 'failed' then exit_at_miles - start_miles end`;

const months = (days: Statement): Statement => sql`(${days}) / ${daysAMonth}`;
const installDay = sql`(case when o.start_miles is not null then o.start_date end)`;

/** The same ages by the calendar: months since installation. A failure on the day of installation gets a day. */
const monthColumns = (component: Component): Statement => {
  const age = (end: Statement) => months(sql`${end} - ${installDay}`);
  const lower =
    component === 'bearing'
      ? sql`null`
      : sql`case when o.state in ('planned', 'other-failure') then ${age(sql`o.exit_day`)} when ${installDay} is null then null
        when c.clean_day is null then 0 else greatest(${age(sql`least(c.clean_day, o.exit_day)`)}, 0) end`;
  const upper =
    component === 'bearing' ? sql`null` : sql`case when o.state = 'failed' then ${age(sql`o.exit_day`)} end`;
  return sql`${age(sql`o.begin_day`)} as entry_months, ${age(sql`o.exit_day`)} as exit_months, ${months(sql`o.exit_day - o.begin_day`)} as exposure_months,
    ${lower} as onset_lower_months, ${upper} as onset_upper_months`;
};

/** The life across the axle that was in use when this one began; of several begun at the same miles the last. */
const mateLives = (component: Component): Statement => sql`
create or replace table ${identifier(`work_mate_lives_${component}`)} as
with used as (select wheel_end, slot, begin_miles, exit_at_miles, coalesce(start_miles, begin_miles) as from_start from ${identifier(`work_observed_${component}`)}),
asked as (select u.*, m.mate from used u join work_mates m on m.wheel_end = u.wheel_end),
begun as (select wheel_end, from_start, max(slot) as slot, arg_max(exit_at_miles, slot) as exit_at_miles from used group by wheel_end, from_start)
select a.wheel_end, a.slot, m.wheel_end as mate_wheel_end, m.slot as mate_slot
from asked a asof join begun m on m.wheel_end = a.mate and m.from_start <= a.from_start where m.exit_at_miles > a.from_start`;

const attribute = (name: string) => `r.${name} as ${name}`;
const plainAttributes = ['shop', 'site', 'lubricant', 'hub_build', 'hub_material', 'seal_lot', 'technician_key'].map(
  attribute,
);
const deviationSelects = deviationCodes
  .map(deviationColumn)
  .map((column) => `coalesce(d.${column}, 'unknown') as ${column}`);
const contractColumns = lifeColumns.map(({ name }) => name).join(', ');
const addedColumns = addedLifeColumns.map(({ name }) => name).join(', ');
const lifeId = (wheelEnd: string, slot: string, component: Component) =>
  sql`${{ text: `${wheelEnd}.unit_id || ' ' || ${wheelEnd}.axle || ' ' || ${wheelEnd}.side || ' '`, values: [] }} || ${component} || ' ' || ${{ text: `cast(${slot} + 1 as varchar)`, values: [] }}`;

/** The lives table of a component: the contract's columns, then what the app adds (see `LivesSource`). */
const lives = (component: Component): TableInPieces => ({
  table: `lives_${component}`,
  by: 'wheel_end',
  rows: (piece) => {
    const some = (table: string) => sql`(select * from ${identifier(`${table}_${component}`)} where ${piece})`;
    return sql`
with rows as (
  select ${lifeId('w', 'o.slot', component)} as life_id, o.unit_id, o.start_miles as install_miles,
    o.begin_miles - o.start_miles as entry_miles, o.exit_at_miles - o.start_miles as exit_miles,
    greatest(o.exit_at_miles - o.begin_miles, 0) as exposure_miles,
    ${onsetLower(component)} as onset_lower_miles, ${onsetUpper(component)} as onset_upper_miles,
    o.state, case when o.state = 'failed' then coalesce(o.mode, 'seal-unknown') end as mode, ${component} as component,
    cast(w.axle as double) as axle, w.side, w.role, ${{ text: plainAttributes.join(', '), values: [] }}, w.duty,
    case when o.start_miles is not null then o.start_date end as install_date,
    case when o.slot > 0 then 'replacement' when o.start_miles is not null then 'original' else 'unknown' end as install_kind,
    o.life_number, cast(o.prior_failures as double) as prior_failures,
    case when 'extrapolated' in (o.start_quality, coalesce(o.end_quality, 'measured')) then 'extrapolated'
      when 'interpolated' in (o.start_quality, coalesce(o.end_quality, 'measured')) or g.slot is not null then 'interpolated' else 'measured' end as mileage_quality,
    case when m.mate_slot is not null then ${lifeId('mw', 'm.mate_slot', component)} end as mate_life_id,
    o.service_id as start_service_id, coalesce(o.failure_id, o.end_service_id) as end_id,
    ${{ text: deviationSelects.join(', '), values: [] }},
    case when o.start_inferred and o.state = 'failed' and o.failure_id is null then 'both' when o.start_inferred then 'start'
      when o.state = 'failed' and o.failure_id is null then 'end' else 'no' end as inferred,
    case when o.state = 'failed' then coalesce(o.lining, 'unknown') end as lining_contaminated,
    o.start_miles is not null as install_known, w.axle || ' ' || w.side as position,
    cast(case when o.start_miles is not null then year(o.start_date) end as integer) as install_year,
    d.conflicting_evidence, ${monthColumns(component)}, o.wheel_end, o.slot, o.begin_miles as observed_from_miles, o.end_miles as observed_to_miles
  from ${some('work_observed')} o join work_wheel_ends w on w.wheel_end = o.wheel_end
  left join ${some('work_across_gaps')} g on g.wheel_end = o.wheel_end and g.slot = o.slot
  left join ${some('work_clean_checks')} c on c.wheel_end = o.wheel_end and c.slot = o.slot
  left join ${some('work_mate_lives')} m on m.wheel_end = o.wheel_end and m.slot = o.slot
  left join work_wheel_ends mw on mw.wheel_end = m.mate_wheel_end
  left join ${some('work_renewals')} r on r.service_id = o.service_id
  left join ${some('work_deviations')} d on d.service_id = o.service_id
)
select ${{ text: contractColumns, values: [] }}, ${{ text: addedColumns, values: [] }}, install_known, position, install_year,
  conflicting_evidence, wheel_end, slot, observed_from_miles, observed_to_miles
from rows order by wheel_end, slot`;
  },
});

/** Miles between a failure and the next renewal: no life, no exposure (5.4). */
const afterFailure = (component: Component): Statement => sql`
create or replace table ${identifier(`after_failure_${component}`)} as
select unit_id, wheel_end, slot, greatest(end_miles, from_miles) as from_miles, least(coalesce(next_miles, to_miles), to_miles) as to_miles
from ${identifier(`work_slots_${component}`)}
where state = 'failed' and least(coalesce(next_miles, to_miles), to_miles) > greatest(end_miles, from_miles)`;

export const lifeRowStages = (component: Component): readonly Stage[] => [
  slots(component),
  observed(component),
  acrossGaps(component),
  cleanChecks(component),
  mateLives(component),
  lives(component),
  afterFailure(component),
];
