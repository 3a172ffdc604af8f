import { z } from 'zod';
import type { Choices, SourceWindow } from '../../shared/choices.ts';
import type { ReadReport } from '../../shared/record-set.ts';
import type { Engine } from '../engine/engine.ts';
import { sql, type Statement } from '../engine/statement.ts';
import { unitShops } from './unit-shops.ts';

const day = z.iso.date().nullable();

/** The record set's window: as declared, else from the first to the last date of the event tables. */
export const observationWindow = (from: string | null, to: string | null): Statement => sql`
create or replace table observation as
with events as (
  select date from services union all select date from inspections union all select date from failures
)
select coalesce(cast(${from} as date), min(date)) as observed_from, coalesce(cast(${to} as date), max(date)) as observed_to from events`;

/** How a source is named wherever one is. */
export const sourceName = ({ shop, files }: SourceWindow): string => shop ?? files ?? '';

/**
 * Which sources record a unit: its shops (`unitShops`), and the files its rows of the units table are in, and the file of most of its events.
 */
const unitSources = sql`
create or replace table work_unit_sources as
with shops as (${unitShops}
), written as (
  select unit_id, file_id from fleet_services union all select unit_id, file_id from fleet_inspections union all select unit_id, file_id from fleet_failures
), filed as (
  select unit_id, file_id from written group by unit_id, file_id
  qualify row_number() over (partition by unit_id order by count(*) desc, file_id) = 1
  union select unit_id, file_id from fleet_unit_rows
)
select unit_id, shop, null as file from shops union all select distinct f.unit_id, null, lower(n.name) from filed f join work_file_names n on n.file_id = f.file_id`;

/** A pattern that names no folder is of the file's own name. */
const matches = sql`(w.shop = s.shop or s.file glob w.files or regexp_replace(s.file, '^.*[\\/]', '') glob w.files)`;

/** Units whose source has a window of its own. With several sources only the days all of them recorded count. */
const unitWindows = sql`
create or replace table work_unit_windows as
select s.unit_id, max(coalesce(w.from_day, o.observed_from)) as observed_from, min(coalesce(w.to_day, o.observed_to)) as observed_to,
  string_agg(distinct w.source, ', ' order by w.source) as source
from work_unit_sources s join work_source_windows w on ${matches} cross join observation o group by s.unit_id`;

export const windowStages: readonly Statement[] = [unitSources, unitWindows];

const tables: readonly Statement[] = [
  sql`create or replace table work_source_windows (source varchar, shop varchar, files varchar, from_day date, to_day date)`,
  sql`create or replace table work_unit_sources (unit_id varchar, shop varchar, file varchar)`,
  sql`create or replace table work_file_names (file_id double, name varchar)`,
  sql`create or replace table work_unit_windows (unit_id varchar, observed_from date, observed_to date, source varchar)`,
];

/**
 * Makes `observation`, the record set's window, and `work_unit_windows`, the units that were watched
 * over another one because their source declares it.
 */
export async function makeWindows(
  engine: Engine,
  report: ReadReport,
  { window: whole, windows }: Choices,
  signal?: AbortSignal,
): Promise<void> {
  await engine.run(
    observationWindow(whole.from ?? day.parse(report.observedFrom), whole.to ?? day.parse(report.observedTo)),
    signal,
  );
  for (const statement of tables) await engine.run(statement, signal);
  for (const window of windows)
    await engine.run(sql`insert into work_source_windows select ${sourceName(window)}, ${window.shop ?? null},
      ${window.files?.toLowerCase() ?? null}, cast(${window.from} as date), cast(${window.to} as date)`);
  if (windows.length === 0) return;
  await engine.append('work_file_names', {
    file_id: Float64Array.from(report.files, (_, fileId) => fileId),
    name: report.files.map(({ name }) => name),
  });
  for (const stage of windowStages) await engine.run(stage, signal);
}
