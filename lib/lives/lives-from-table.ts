import { addedLifeColumns, lifeColumns } from '../../shared/lives.ts';
import { components, lifeStates, type Component } from '../../shared/vocabulary.ts';
import { numberColumn, textColumn, type Engine } from '../engine/engine.ts';
import { identifier, sql, type Statement } from '../engine/statement.ts';
import { evidenceTables, placedLives, placesFile, readEvidence } from './evidence-tables.ts';
import type { DataAccount, LivesSource } from './lives-source.ts';

const needed = ['life_id', 'unit_id', 'exposure_miles', 'state'] as const;
const sqlType = { text: 'varchar', number: 'double', date: 'date' } as const;
const known = new Map([...lifeColumns, ...addedLifeColumns].map(({ name, kind }) => [name, kind]));

const names = (column: string, present: ReadonlySet<string>) => (present.has(column) ? `"${column}"` : null);

/** One contract column of the opened table, cast; a column it does not have is not known throughout. */
function contractColumn(name: string, present: ReadonlySet<string>): string {
  const type = sqlType[known.get(name) ?? 'text'];
  const column = names(name, present);
  if (!column) return name === 'component' ? `'seal' as component` : `cast(null as ${type}) as ${name}`;
  // An empty cell of a text file is "not known", the same as a null of a typed one.
  return `try_cast(nullif(cast(${column} as varchar), '') as ${type}) as ${name}`;
}

function typedLives(table: string, present: ReadonlySet<string>): Statement {
  const contract = lifeColumns.map(({ name }) => contractColumn(name, present)).join(', ');
  const added = addedLifeColumns.map(({ name }) =>
    name === 'inferred' && !present.has(name) ? `'no' as inferred` : contractColumn(name, present),
  );
  return {
    text: `create or replace table work_opened_lives as
      select *, install_miles is not null or exit_miles is not null as install_known, cast(axle as integer) || ' ' || side as position, cast(year(install_date) as integer) as install_year
      from (select ${contract}, ${added.join(', ')} from "${table}")`,
    values: [],
  };
}

/** What is wrong with an opened lives table as a whole, in one sentence, or null. */
async function problemOf(engine: Engine): Promise<string | null> {
  const states = lifeStates.map((state) => `'${state}'`).join(', ');
  const check = await engine.query({
    text: `select cast(count(*) as double) as lives, cast(count(*) filter (state is null or state not in (${states})) as double) as bad_states,
      min(state) filter (state not in (${states})) as bad_state, cast(count(*) filter (exposure_miles is null or exposure_miles < 0) as double) as bad_exposures,
      cast(count(*) filter (exit_miles < entry_miles) as double) as bad_ages from work_opened_lives`,
    values: [],
  });
  const count = (name: string) => numberColumn(check, name)[0] ?? 0;
  if (count('lives') === 0) return 'the lives table has no rows';
  if (count('bad_states') > 0)
    return `${count('bad_states')} rows have no known state; state is one of ${lifeStates.join(', ')}; found "${textColumn(check, 'bad_state')[0] ?? ''}"`;
  if (count('bad_exposures') > 0) return `${count('bad_exposures')} rows have no exposure_miles of 0 or more`;
  if (count('bad_ages') > 0) return `${count('bad_ages')} rows have exit_miles below entry_miles`;
  return null;
}

/** Failures of other components are known only by the lives they ended. */
const episodesFromLives = sql`
create or replace table episodes as
select life_id as episode_id, unit_id, axle, side, case state when 'failed' then 'seal' else 'other' end as component, coalesce(mode, 'other') as mode,
  cast(null as date) as date, exit_miles + install_miles as miles, life_id, lining_contaminated, cast(null as varchar) as wheel_lost, inferred in ('end', 'both') as inferred
from lives_seal where state in ('failed', 'other-failure')`;

/** Episodes as an earlier export wrote them beside its lives: those that met no life are among them. */
const episodesFromTable = (table: string): Statement => sql`
create or replace table episodes as
select episode_id, unit_id, cast(axle as double) as axle, side, component, mode, try_cast(nullif(cast(date as varchar), '') as date) as date, cast(miles as double) as miles,
  life_id, lining_contaminated, wheel_lost, inferred = 'yes' as inferred
from ${identifier(table)}`;

/** Tables in the engine beside one of lives. */
export interface TablesBeside {
  readonly episodes?: string;
  /** What questions read besides, by the name of its file; of no use without where each life stands. */
  readonly evidence?: Readonly<Record<string, string>>;
}

/**
 * Lives opened from a lives table that another system, or an earlier export, built by the same rules.
 * @param table already in the engine, with any of the contract's columns
 * @param columns the names it has
 * @param beside tables that were written beside it, where there are any: failure episodes, and what questions read besides
 * @throws Error where a needed column is missing or the table as a whole cannot be used
 */
export async function livesFromTable(
  engine: Engine,
  table: string,
  columns: readonly string[],
  account: DataAccount,
  { episodes, evidence = {} }: TablesBeside = {},
): Promise<LivesSource> {
  const present = new Set(columns.map((column) => column.toLowerCase()));
  const missing = needed.filter((name) => !present.has(name));
  if (missing.length > 0)
    throw new Error(
      `not a lives table: column ${missing.join(', ')} is missing; a lives table has at least ${needed.join(', ')}; found ${columns.join(', ')}`,
    );
  await engine.run(typedLives(table, present));
  const problem = await problemOf(engine);
  if (problem) throw new Error(problem);
  const places = evidence[placesFile];
  for (const component of Object.keys(components) as Component[])
    await engine.run(
      places === undefined
        ? sql`create or replace table ${identifier(`lives_${component}`)} as select * from work_opened_lives where component = ${component}`
        : placedLives(component, places),
    );
  for (const one of places === undefined ? [] : evidenceTables) {
    const opened = evidence[one.file];
    if (opened !== undefined) await engine.run(readEvidence(one, opened));
  }
  await engine.run(episodes === undefined ? episodesFromLives : episodesFromTable(episodes));
  return {
    engine,
    account,
    messages: [],
    estimatedLives: 'in',
    changes: [],
    fromRecords: places !== undefined,
    ensure: () => Promise.resolve(),
  };
}
