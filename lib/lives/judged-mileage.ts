import { numberColumn, textColumn, type Engine } from '../engine/engine.ts';
import { sql, type Statement } from '../engine/statement.ts';
import { chosenReadings, type MeterEvent } from './chosen-readings.ts';
import { mostMilesADay, type MeterPoint, type Rules } from './meter-point.ts';
import { saidMiles } from './mileage.ts';
import { VerdictColumns } from './verdict-columns.ts';

/** Units with a reading that contradicts another, or tells of a reset: only theirs are looked at one by one. */
const suspectUnits = sql`
create or replace table work_suspect_units as
with broken as (
  select unit_id from work_mile_points where high_miles - low_miles > ${mostMilesADay}
  union select unit_id from (
    select unit_id, low_miles, day, lag(high_miles) over unit as before, lag(day) over unit as day_before
    from work_mile_points window unit as (partition by unit_id order by day)
  ) where low_miles < before or low_miles - before > ${mostMilesADay} * (day - day_before)
  union select unit_id from fleet_readings where event is not null
)
select unit_id, cast(row_number() over (order by unit_id) as double) as nth from broken`;

const tables: readonly Statement[] = [
  sql`create or replace table work_mile_verdicts (unit_id varchar, day date, miles double, rule varchar, used_miles double, least double, most double)`,
  sql`create or replace table work_chosen_miles (unit_id varchar, day date, miles double)`,
  sql`create or replace table work_meter_gaps (unit_id varchar, at_miles double)`,
  sql`create or replace table work_meter_shifts (unit_id varchar, shift_miles double)`,
];

const epochDays = sql`cast(day - date '1970-01-01' as double) as day`;

/** Every different reading of some of the suspects, a unit after the other. */
const suspectPoints = (first: number, last: number) => sql`
select s.nth, p.unit_id, ${epochDays}, miles, cast(max(trust) as double) as trust
from (${saidMiles}) p join work_suspect_units s on s.unit_id = p.unit_id and s.nth between ${first} and ${last}
where day is not null and miles is not null group by all order by s.nth, day, miles`;

const suspectEvents = sql`
select unit_id, cast(date - date '1970-01-01' as double) as day, max(miles_before) as before, min(miles) as after
from fleet_readings where event is not null group by unit_id, date order by unit_id, date`;

/** Readings that were judged take the place of those as written. */
const chosenPoints: readonly Statement[] = [
  sql`delete from work_mile_points where unit_id in (select unit_id from work_suspect_units)`,
  sql`insert into work_mile_points select unit_id, day, min(miles), max(miles) from work_chosen_miles group by unit_id, day`,
];

/** Suspects are read so many at a time, so that a fleet of any size fits. */
const unitsAtATime = 2_000;

async function eventsByUnit(engine: Engine, signal?: AbortSignal): Promise<Map<string, MeterEvent[]>> {
  const found = await engine.query(suspectEvents, signal);
  const [day, before, after] = ['day', 'before', 'after'].map((name) => numberColumn(found, name)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const events = new Map<string, MeterEvent[]>();
  textColumn(found, 'unit_id').forEach((unitId, row) => {
    const told = Number.isNaN(before[row]) ? null : (before[row] as number);
    const list = events.get(unitId as string) ?? [];
    list.push({ day: day[row] as number, before: told, after: after[row] as number });
    events.set(unitId as string, list);
  });
  return events;
}

/** The points of each unit of a page of suspects. */
async function* pointsByUnit(
  engine: Engine,
  first: number,
  signal?: AbortSignal,
): AsyncGenerator<[string, MeterPoint[]]> {
  const found = await engine.query(suspectPoints(first, first + unitsAtATime - 1), signal);
  const units = textColumn(found, 'unit_id');
  const [day, miles, trust] = ['day', 'miles', 'trust'].map((name) => numberColumn(found, name)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  for (let row = 0; row < found.rows;) {
    const unitId = units[row] as string;
    const points: MeterPoint[] = [];
    for (; row < found.rows && units[row] === unitId; row++)
      points.push({ day: day[row] as number, miles: miles[row] as number, trust: trust[row] as number });
    yield [unitId, points];
  }
}

/** The statements as they stand, for the test that has the engine explain each. */
export const judgingStatements: readonly Statement[] = [
  suspectUnits,
  ...tables,
  suspectPoints(1, unitsAtATime),
  suspectEvents,
  ...chosenPoints,
];

/**
 * Judges the readings of every unit that has a contradiction among them. Makes
 * `work_mile_verdicts(unit_id, day, miles, rule, used_miles, least, most)`, a row for every reading as
 * written that is not used as written; `work_meter_gaps`, miles at which how far a unit had run is
 * estimated; `work_meter_shifts`, what its last meter falls short of; and puts `work_mile_points` right.
 */
export async function judgeMileage(engine: Engine, rules: Rules, signal?: AbortSignal): Promise<void> {
  for (const statement of tables) await engine.run(statement, signal);
  await engine.run(suspectUnits, signal);
  const counted = await engine.query(sql`select cast(count(*) as double) as n from work_suspect_units`, signal);
  const suspects = numberColumn(counted, 'n')[0] ?? 0;
  if (suspects === 0) return;
  const events = await eventsByUnit(engine, signal);
  for (let first = 1; first <= suspects; first += unitsAtATime) {
    signal?.throwIfAborted();
    const columns = new VerdictColumns();
    for await (const [unitId, points] of pointsByUnit(engine, first, signal))
      columns.add(unitId, chosenReadings(points, events.get(unitId) ?? [], rules));
    await columns.appendTo(engine);
  }
  for (const statement of chosenPoints) await engine.run(statement, signal);
}
