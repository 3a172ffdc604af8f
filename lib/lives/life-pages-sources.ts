import { recordTables, type TableName } from '../../shared/record-tables.ts';
import type { Component } from '../../shared/vocabulary.ts';
import { identifier, joinSql, sql, type Statement } from '../engine/statement.ts';
import type { LifeFacts } from './life-facts.ts';

const renewals = (component: Component) => identifier(`work_renewals_${component}`);
const slotted = (component: Component) => identifier(`work_slotted_${component}`);

/** Rows of the wheel end that began, ended, checked or touched the life. */
function ownRows({ component, wheelEnd, slot, unitId, failure, next, startMiles, beginMiles }: LifeFacts): Statement[] {
  const from = startMiles ?? beginMiles;
  const to = next?.miles ?? Infinity;
  const until = Number.isFinite(to) ? sql`at_miles <= ${to}` : sql`true`;
  return [
    sql`select 'units' as "table", unit_id as id, 'vehicle' as part, in_service_miles as miles, cast(in_service_date as varchar) as day,
      'measured' as quality, cast(null as varchar) as rule, file_id, line from fleet_unit_rows where unit_id = ${unitId}`,
    sql`select 'services', service_id, case when ordinal = ${slot} then 'fitted' else 'renewed' end, at_miles, cast(date as varchar), miles_quality, miles_rule, file_id, line
      from ${renewals(component)} where wheel_end = ${wheelEnd} and ordinal in (${slot}, ${slot + 1})`,
    sql`select 'failures', failure_id, case when failure_id = ${failure?.failureId ?? null} then 'failed'
        when by_fastener then 'fastener' when failed_component = ${component} then 'report' when repaired_by = ${next?.serviceId ?? null} then 'other-repaired' else 'other' end,
      at_miles, cast(date as varchar), miles_quality, miles_rule, file_id, line
      from ${slotted(component)} where wheel_end = ${wheelEnd} and slot = ${slot}`,
    sql`select 'services', service_id, 'touched', at_miles, cast(date as varchar), miles_quality, miles_rule, file_id, line
      from work_placed_services where wheel_end = ${wheelEnd} and at_miles >= ${from} and ${until}
        and service_id not in (select service_id from ${renewals(component)} where wheel_end = ${wheelEnd})`,
    sql`select 'inspections', inspection_id, case when checked <> 'yes' or leak is null then 'seen' when leak = 0 then 'dry' when leak = 1 then 'damp' else 'leaking' end,
      at_miles, cast(date as varchar), miles_quality, miles_rule, file_id, line
      from work_placed_inspections where wheel_end = ${wheelEnd} and at_miles >= ${from} and ${until}`,
  ];
}

/** Rows of the wheel end across the axle that say why the part here was renewed. */
function mateRows({ next }: LifeFacts): Statement[] {
  if (next === null) return [];
  const { mateFailure, mateOrder } = next;
  return [
    ...(mateFailure === null
      ? []
      : [
          sql`select 'failures', failure_id, 'mate-failed', at_miles, cast(date as varchar), miles_quality, miles_rule, file_id, line
            from work_placed_failures where failure_id = ${mateFailure.failureId}`,
        ]),
    ...(mateOrder === null
      ? []
      : [
          sql`select 'services', service_id, 'mate-ordered', at_miles, cast(date as varchar), miles_quality, miles_rule, file_id, line
            from work_placed_services where service_id = ${mateOrder.serviceId}`,
        ]),
  ];
}

const knownMiles = sql`
select 'readings' as "table", unit_id, date as day, miles, source as id, file_id, line from fleet_readings
union all select 'services', unit_id, date, miles, service_id, file_id, line from fleet_services
union all select 'inspections', unit_id, date, miles, inspection_id, file_id, line from fleet_inspections
union all select 'failures', unit_id, date, miles, failure_id, file_id, line from fleet_failures`;

/** The nearest rows with miles before and after a day whose own miles are not written down. */
const neighbours = (unitId: string, day: string): Statement => sql`
select "table", id, 'miles' as part, miles, cast(day as varchar) as day, 'measured' as quality, null as rule, file_id, line from (
  select * from (${knownMiles}) where unit_id = ${unitId} and miles is not null
  qualify row_number() over (partition by day <= cast(${day} as date) order by abs(day - cast(${day} as date)), "table", file_id, line) = 1)`;

const unwritten = (quality: string | null): boolean => quality !== null && quality !== 'measured';

function mileRows({ unitId, startQuality, startDate, endQuality, failure, next }: LifeFacts): Statement[] {
  const end = failure?.date ?? next?.date ?? null;
  const days = [unwritten(startQuality) ? startDate : null, unwritten(endQuality) ? end : null];
  return days.flatMap((day) => (day === null ? [] : [neighbours(unitId, day)]));
}

/** Where every row behind a life stands (`table, id, part, miles, day, quality, rule, file_id, line`), by miles; `part` is what the row did. */
export const sourceRowsStatement = (facts: LifeFacts): Statement => sql`
select "table", id, part, miles, day, quality, rule, cast(file_id as double) as file_id, cast(line as double) as line from (${joinSql(
  [...ownRows(facts), ...mateRows(facts), ...mileRows(facts)],
  ' union all ',
)}) order by miles nulls first, day, case part when 'failed' then 0 when 'renewed' then 2 else 1 end, id`;

export interface RowPlace {
  readonly fileId: number;
  readonly line: number;
}

/** The cells of some rows of one table, as they were read, every one as text. */
export const cellsStatement = (table: TableName, places: readonly RowPlace[]): Statement => {
  const columns = recordTables[table].map(
    ({ name }) => sql`cast(${identifier(name)} as varchar) as ${identifier(name)}`,
  );
  const at = places.map(({ fileId, line }) => sql`(file_id = ${fileId} and line = ${line})`);
  return sql`select cast(file_id as double) as file_id, cast(line as double) as line, ${joinSql(columns, ', ')}
    from ${identifier(table)} where ${joinSql(at, ' or ')}`;
};

/** Names of the files, by number. */
export const filesStatement: Statement = sql`select cast(file_id as double) as file_id, name from files order by file_id`;
