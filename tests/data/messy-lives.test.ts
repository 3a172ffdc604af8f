// The lives of a messy fleet are those of the tidy one wherever no mess took away what they stand on.
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoFiles } from '../../data/demo/demo-files.ts';
import { generateDemoFleet } from '../../data/demo/generate-demo-fleet.ts';
import { kindOf, type Loss } from '../../data/demo/messy/mess.ts';
import { messyFleet } from '../../data/demo/messy/messy-fleet.ts';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { identifier, joinSql, sql } from '../../lib/engine/statement.ts';
import { livesFromRecords, livesTable, proceduresOf } from '../../lib/lives/index.ts';
import { readRecords, type RecordSource } from '../../lib/records/index.ts';
import { addedLifeColumns, lifeColumns } from '../../shared/lives.ts';
import { source } from '../records/sources.ts';
import { messySources, trueRows } from './messy-reading.ts';

type Life = Readonly<Record<string, string | number | null>>;

/** Ids differ where a list has none of its own, and Coldmere does not say who did the work. */
const notCompared = ['life_id', 'mate_life_id', 'start_service_id', 'end_id', 'technician_key'];
const columns = [...lifeColumns, ...addedLifeColumns].filter(({ name }) => !notCompared.includes(name));
const isMiles = (name: string) => name.endsWith('_miles');
/** Whole kilometres put both ends of a life off by a third of a mile at most. */
const leeway = 0.7;

const options = { units: 160, seed: 27 };
const fleet = messyFleet(options);

/** Axles of which a row is gone, and units whose miles are less well known, as the messes were made. */
function lost(loss: Loss, of: (row: Life) => string): ReadonlySet<string> {
  const rows = trueRows(fleet).filter(({ messes }) => messes.some(({ code }) => kindOf(code).loss === loss));
  return new Set(rows.map(({ paper }) => of(paper.tidy ?? paper.row)));
}
const axleOf = (row: Life) => `${row['unit_id']} axle ${row['axle']}`;
const unitOf = (row: Life) => String(row['unit_id']);
const rowsLost = lost('row', axleOf);
const milesLost = new Set([...lost('miles', unitOf), ...lost('row', unitOf)]);

async function livesOf(engine: Engine, sources: readonly RecordSource[]): Promise<Map<string, Life[]>> {
  const report = await readRecords(engine, sources);
  await (await livesFromRecords(engine, report, proceduresOf(report))).ensure('seal');
  const wanted = columns.map(({ name, kind }) =>
    kind === 'date' ? sql`cast(${identifier(name)} as varchar) as ${identifier(name)}` : sql`${identifier(name)}`,
  );
  const found = await engine.query(sql`select ${joinSql(wanted, ', ')} from ${identifier(livesTable('seal'))}
    order by unit_id, axle, side, life_number, entry_miles`);
  const byAxle = new Map<string, Life[]>();
  for (let row = 0; row < found.rows; row++) {
    const life = Object.fromEntries(
      Object.entries(found.columns).map(([name, column]): [string, string | number | null] => {
        const value = column[row];
        return [name, typeof value === 'number' && Number.isNaN(value) ? null : ((value as string | number) ?? null)];
      }),
    );
    byAxle.set(axleOf(life), [...(byAxle.get(axleOf(life)) ?? []), life]);
  }
  return byAxle;
}

/** Columns in which two lives differ that may not. */
function differences(tidy: Life, messy: Life, exactMiles: boolean): string[] {
  return columns.flatMap(({ name, kind }) => {
    if (!exactMiles && (isMiles(name) || name === 'mileage_quality')) return [];
    const [one, other] = [tidy[name] ?? null, messy[name] ?? null];
    const alike =
      kind === 'number' && one !== null && other !== null
        ? Math.abs(Number(one) - Number(other)) <= (isMiles(name) ? leeway : 1e-9)
        : one === other;
    return alike ? [] : [`${axleOf(tidy)} ${tidy['side']} ${tidy['install_date']} ${name}: ${one}, ${other}`];
  });
}

describe('lives of a fleet as five shops would export it', () => {
  let engine: Engine;
  let tidy: Map<string, Life[]>;
  let messy: Map<string, Life[]>;
  beforeAll(async () => {
    engine = await openNodeEngine({ threads: 1 });
    const records = demoFiles(generateDemoFleet(options)).filter(({ name }) => !/truth|README/.test(name));
    tidy = await livesOf(
      engine,
      records.map(({ name, text }) => source(name, text)),
    );
    messy = await livesOf(engine, messySources(fleet));
  }, 120_000);
  afterAll(() => engine.close());

  const whole = () => [...tidy].filter(([axle]) => !rowsLost.has(axle));

  it('stand on the same axles, and most of them lost nothing', () => {
    expect([...messy.keys()].filter((axle) => !tidy.has(axle))).toEqual([]);
    const exact = whole().filter(([, [life]]) => !milesLost.has(unitOf(life!)));
    expect(whole().length).toBeGreaterThan(0.7 * tidy.size);
    expect(exact.length).toBeGreaterThan(0.4 * tidy.size);
  });

  it('are the tidy ones where no row is gone, to the mile where no miles are', () => {
    const wrong = whole().flatMap(([axle, lives]) => {
      const others = messy.get(axle) ?? [];
      if (others.length !== lives.length) return [`${axle}: ${lives.length} lives, ${others.length}`];
      return lives.flatMap((life, at) => differences(life, others[at]!, !milesLost.has(unitOf(life))));
    });
    expect(wrong).toEqual([]);
  });
});
