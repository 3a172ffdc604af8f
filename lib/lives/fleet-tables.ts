import { numberColumn, textColumn, type Engine } from '../engine/engine.ts';
import { identifier, joinSql, sql, type Statement } from '../engine/statement.ts';
import { resolvedFormerIds, type FormerIds, type NumberedUnit } from './former-ids.ts';

const eventTables = ['readings', 'services', 'inspections', 'failures'] as const;

/** The rows of a record table under the numbers that their units bear today. */
export const fleetTable = (table: 'units' | (typeof eventTables)[number]): string => `fleet_${table}`;

/** Rows of the units table whose numbers need thought: former ones, those they point at, and those used twice. */
const numbered = sql`
with former as (
  select trim(unnest(string_split(former_ids, ';'))) as name from units where former_ids is not null
), twice as (select unit_id from units group by unit_id having count(*) > 1)
select cast(file_id as double) * 1e9 + cast(line as double) as place, unit_id, former_ids,
  cast(in_service_date - date '1970-01-01' as double) as in_service, cast(out_date - date '1970-01-01' as double) as out, out_reason
from units where former_ids is not null or unit_id in (select name from former) or unit_id in (select unit_id from twice)
order by place`;

/** Tables that former numbers are looked up in: empty until they are filled. */
const emptyNames: readonly Statement[] = [
  sql`create or replace table work_unit_names (name varchar, unit_id varchar, from_day date, until_day date)`,
  sql`create or replace table work_unit_rows (place double, unit_id varchar, nth double)`,
  sql`create table if not exists duplicate_ids ("table" varchar, rule varchar, id varchar, kept_id varchar)`,
];

const known = (value: number | undefined): number | null => (value === undefined || Number.isNaN(value) ? null : value);

async function numberedUnits(engine: Engine, signal?: AbortSignal): Promise<NumberedUnit[]> {
  const found = await engine.query(numbered, signal);
  const [former, inService, out] = [
    textColumn(found, 'former_ids'),
    numberColumn(found, 'in_service'),
    numberColumn(found, 'out'),
  ];
  const [place, reason] = [numberColumn(found, 'place'), textColumn(found, 'out_reason')];
  return textColumn(found, 'unit_id').map((unitId, row) => ({
    row: place[row] as number,
    unitId: unitId as string,
    formerIds: (former[row] ?? '').split(';').flatMap((name) => (name.trim() === '' ? [] : [name.trim()])),
    inService: known(inService[row]),
    out: known(out[row]),
    outReason: reason[row] ?? null,
  }));
}

async function fillNames(engine: Engine, { aliases, vehicles }: FormerIds): Promise<void> {
  const days = (values: readonly (number | null)[]) => Float64Array.from(values, (value) => value ?? NaN);
  if (aliases.length > 0)
    await engine.append('work_unit_names', {
      name: aliases.map(({ name }) => name),
      unit_id: aliases.map(({ unitId }) => unitId),
      from_day: days(aliases.map(({ from }) => from)),
      until_day: days(aliases.map(({ until }) => until)),
    });
  const rows = vehicles.flatMap(({ unitId, rows: own }) => own.map((place, nth) => ({ place, unitId, nth })));
  if (rows.length > 0)
    await engine.append('work_unit_rows', {
      place: Float64Array.from(rows, ({ place }) => place),
      unit_id: rows.map(({ unitId }) => unitId),
      nth: Float64Array.from(rows, ({ nth }) => nth),
    });
}

type EventTable = (typeof eventTables)[number];

/** What a view has to change: numbers of units, and links to rows set aside as said before. */
interface Changes {
  readonly numbers: boolean;
  readonly links: boolean;
}

const asWritten = (table: string): Statement =>
  sql`create or replace view ${identifier(`fleet_${table}`)} as select * from ${identifier(table)}`;

function fleetView(table: EventTable, changes: Changes): Statement {
  const links = changes.links && table === 'failures';
  if (!changes.numbers && !links) return asWritten(table);
  const replaced = [
    ...(changes.numbers ? [sql`coalesce(n.unit_id, r.unit_id) as unit_id`] : []),
    ...(links ? [sql`coalesce(d.kept_id, r.repair_service_id) as repair_service_id`] : []),
  ];
  const numbers = changes.numbers
    ? sql`left join work_unit_names n on n.name = r.unit_id
        and r.date >= coalesce(n.from_day, date '0001-01-01') and r.date < coalesce(n.until_day, date '9999-12-31')`
    : sql``;
  const kept = links
    ? sql`left join (select id, any_value(kept_id) as kept_id from duplicate_ids where "table" = 'services' group by id) d on d.id = r.repair_service_id`
    : sql``;
  return sql`create or replace view ${identifier(fleetTable(table))} as
    select r.* replace (${joinSql(replaced, ', ')}) from ${identifier(table)} r ${numbers} ${kept}`;
}

/**
 * One row a vehicle: it began as its first row says and left as its last one does, which also tells
 * what it is; being handed on within the fleet is no leaving.
 */
const oneRowAVehicle = sql`
create or replace view ${identifier(fleetTable('units'))} as
with named as (
  select u.*, coalesce(p.unit_id, u.unit_id) as vehicle, coalesce(p.nth, 0) as nth
  from units u left join work_unit_rows p on p.place = cast(u.file_id as double) * 1e9 + cast(u.line as double)
), firsts as (select * from named qualify row_number() over (partition by vehicle order by nth) = 1
), lasts as (select * from named qualify row_number() over (partition by vehicle order by nth desc) = 1)
select l.* exclude (vehicle, nth) replace (l.vehicle as unit_id, f.acquired as acquired, f.in_service_date as in_service_date, f.in_service_miles as in_service_miles)
from lasts l join firsts f on f.vehicle = l.vehicle`;

/** Every row of the units table under the number of today: what each says of miles and shops. */
const unitRows = sql`
create or replace view fleet_unit_rows as
select u.* replace (coalesce(p.unit_id, u.unit_id) as unit_id)
from units u left join work_unit_rows p on p.place = cast(u.file_id as double) * 1e9 + cast(u.line as double)`;

/** The views as statements, for the test that has the engine explain each. */
export const fleetViews: readonly Statement[] = [
  ...eventTables.map((table) => fleetView(table, { numbers: true, links: true })),
  oneRowAVehicle,
  unitRows,
];

/**
 * Makes `fleet_<table>` for every record table: the same columns, with each row under the number its
 * unit bears today, and one row a vehicle in `fleet_units`.
 * @returns what could not be decided, in sentences
 */
export async function makeFleetTables(
  engine: Engine,
  formerIds: boolean,
  signal?: AbortSignal,
): Promise<readonly string[]> {
  for (const statement of emptyNames) await engine.run(statement, signal);
  const units = (await numberedUnits(engine, signal)).map((unit) => (formerIds ? unit : { ...unit, formerIds: [] }));
  const resolved = resolvedFormerIds(units);
  await fillNames(engine, resolved);
  const linked = await engine.query(sql`select 1 from duplicate_ids limit 1`, signal);
  const changes = { numbers: resolved.aliases.length > 0, links: linked.rows > 0 };
  for (const table of eventTables) await engine.run(fleetView(table, changes), signal);
  await engine.run(resolved.vehicles.length > 0 ? oneRowAVehicle : asWritten('units'), signal);
  await engine.run(unitRows, signal);
  return resolved.undecided;
}
