import { addedLifeColumns, lifeColumns } from '../../shared/lives.ts';
import type { Engine, ResultColumn } from '../../lib/engine/engine.ts';
import { sql } from '../../lib/engine/statement.ts';
import { livesFromTable, type DataAccount, type LivesSource } from '../../lib/lives/index.ts';

/** One life as a test states it: only what matters to it, the rest not known. */
export type Life = Readonly<Record<string, string | number | null>>;

export interface Episode {
  readonly life: string | null;
  readonly mode: string;
  readonly component: string;
  readonly lining?: 'yes' | 'no';
}

export const account: DataAccount = {
  fingerprint: 'test',
  files: [{ name: 'lives.csv', table: 'lives', read: 1000, kept: 1000, setAside: 0 }],
  setAside: 0,
  observedFrom: '2020-01-01',
  observedTo: '2025-12-31',
  invented: true,
};

const columns = [...lifeColumns, ...addedLifeColumns];

const sqlTypes = { text: 'varchar', number: 'double', date: 'varchar' } as const;

/** A life as its contract has it: ages and exposure agree unless the test says otherwise. */
function completed(life: Life, place: number): Life {
  const entry = life['entry_miles'] ?? (life['exit_miles'] == null ? null : 0);
  const exposure = life['exit_miles'] == null ? 0 : Number(life['exit_miles']) - Number(entry);
  return {
    life_id: `L${place}`,
    unit_id: `U${place}`,
    install_miles: life['exit_miles'] == null ? null : 1000,
    exposure_miles: exposure,
    state: 'running',
    component: 'seal',
    axle: 1,
    side: 'left',
    install_kind: 'replacement',
    ...life,
    entry_miles: entry,
  };
}

function toColumns(lives: readonly Life[]): Record<string, ResultColumn> {
  const rows = lives.map(completed);
  return Object.fromEntries(
    columns.map(({ name, kind }) => [
      name,
      kind === 'number'
        ? Float64Array.from(rows, (row) => (row[name] == null ? NaN : Number(row[name])))
        : rows.map((row) => (row[name] == null ? null : String(row[name]))),
    ]),
  );
}

/** Puts stated lives into the engine as an opened lives table; with `episodes`, those replace the ones lives tell of. */
export async function fleet(
  engine: Engine,
  lives: readonly Life[],
  episodes?: readonly Episode[],
): Promise<LivesSource> {
  const declared = columns.map(({ name, kind }) => `"${name}" ${sqlTypes[kind]}`).join(', ');
  await engine.run({ text: `create or replace table opened (${declared})`, values: [] });
  await engine.append('opened', toColumns(lives));
  const source = await livesFromTable(
    engine,
    'opened',
    columns.map(({ name }) => name),
    account,
  );
  if (episodes) await replaceEpisodes(engine, episodes);
  return source;
}

async function replaceEpisodes(engine: Engine, episodes: readonly Episode[]): Promise<void> {
  await engine.run(
    sql`create or replace table stated (episode_id varchar, life_id varchar, component varchar, mode varchar, lining varchar)`,
  );
  await engine.append('stated', {
    episode_id: episodes.map((_, place) => `E${place}`),
    life_id: episodes.map(({ life }) => life),
    component: episodes.map(({ component }) => component),
    mode: episodes.map(({ mode }) => mode),
    lining: episodes.map(({ lining }) => lining ?? null),
  });
  await engine.run(sql`create or replace table episodes as
    select s.episode_id, l.unit_id, l.axle, l.side, s.component, s.mode, cast(null as date) as date, cast(null as double) as miles,
      s.life_id, s.lining as lining_contaminated, cast(null as varchar) as wheel_lost, false as inferred
    from stated s left join lives_seal l on l.life_id = s.life_id`);
}

/** `count` lives (or episodes) alike; `each` may make them differ. */
export const many = <T = Life>(count: number, each: (place: number) => T): T[] =>
  Array.from({ length: count }, (_, place) => each(place));
