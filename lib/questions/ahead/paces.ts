import { daysAMonth } from '../../../shared/units.ts';
import type { Component } from '../../../shared/vocabulary.ts';
import { numberColumn, textColumn } from '../../engine/engine.ts';
import { identifier, sql, type Statement } from '../../engine/statement.ts';
import { livesTable } from '../../lives/index.ts';
import { run, type Asking } from '../asking.ts';

/** A vehicle's pace is that of so many days before its last known miles. */
export const recentDays = 365;

/**
 * Miles a day not exceeded on half of a vehicle's recent days. A table of lives tells it only by
 * what its running lives were watched over.
 */
export const pacesStatement = (component: Component, fromRecords: boolean): Statement =>
  fromRecords
    ? sql`
with known as (select unit_id, max(day) as last_day from work_mile_points group by unit_id),
stretches as (
  select unit_id, day, day - lag(day) over unit as days, (low_miles - lag(high_miles) over unit) / (day - lag(day) over unit) as pace
  from work_mile_points window unit as (partition by unit_id order by day)
), recent as (
  select s.unit_id, s.days, s.pace from stretches s join known k on k.unit_id = s.unit_id
  where s.pace >= 0 and date_diff('day', s.day, k.last_day) < ${recentDays}
), passed as (
  select unit_id, pace, sum(days) over (partition by unit_id order by pace, days rows unbounded preceding) as passed, sum(days) over (partition by unit_id) as days from recent
)
select unit_id, min(pace) as miles_a_day from passed where passed * 2 >= days group by unit_id`
    : sql`
select unit_id, median(exposure_miles / (exposure_months * ${daysAMonth})) as miles_a_day
from ${identifier(livesTable(component))} where state = 'running' and exposure_months > 0 group by unit_id`;

export interface Paces {
  /** Miles a day of each vehicle by its code; where none is known, the median of all that are. */
  readonly milesADay: Float64Array;
  /** Whether a vehicle's own pace is known. */
  readonly own: Uint8Array;
  /** Of the vehicles whose pace is known; null where none is. */
  readonly median: number | null;
}

/** @param units labels of the vehicles in the order of their codes */
export async function pacesOf(asking: Asking, units: readonly string[]): Promise<Paces> {
  const { source, view } = asking;
  const found = await run(asking, pacesStatement(view.component, source.fromRecords));
  const pace = numberColumn(found, 'miles_a_day');
  const known = new Map(textColumn(found, 'unit_id').map((unit, at) => [unit ?? 'unknown', pace[at] as number]));
  const ordered = Float64Array.from(known.values()).sort();
  const median = ordered.length === 0 ? null : (ordered[ordered.length >> 1] as number);
  return {
    milesADay: Float64Array.from(units, (unit) => known.get(unit) ?? median ?? NaN),
    own: Uint8Array.from(units, (unit) => (known.has(unit) ? 1 : 0)),
    median,
  };
}
