// Native DuckDB and DuckDB-WASM have to rebuild the same lives from the same records.
import { expect, it } from 'vitest';
import { generateDemoFleet } from '../../data/demo/generate-demo-fleet.ts';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { openWasmEngine } from '../../lib/engine/wasm-node.ts';
import { livesTable, rebuildCatalogue } from '../../lib/lives/index.ts';
import { components, type Component } from '../../shared/vocabulary.ts';
import { rebuild, rowsOf, type Fleet, type Row } from './record-tables-in-engine.ts';

const blankAsNull = (rows: readonly object[]): Row[] =>
  rows.map((row) =>
    Object.fromEntries(
      Object.entries(row).map(([name, value]) => [name, value === '' ? null : (value as Row[string])]),
    ),
  );

function demoFleet(): { fleet: Fleet; window: { from: string; to: string } } {
  const { units, readings, services, inspections, failures, observedFrom, observedTo } = generateDemoFleet({
    units: 40,
  });
  const fleet = Object.fromEntries(
    Object.entries({ units, readings, services, inspections, failures }).map(([table, rows]) => [
      table,
      blankAsNull(rows),
    ]),
  );
  return { fleet, window: { from: observedFrom, to: observedTo } };
}

const names = Object.keys(components) as Component[];

async function everything(engine: Engine): Promise<Row[][]> {
  const { fleet, window } = demoFleet();
  const source = await rebuild(engine, fleet, window);
  for (const name of names) await source.ensure(name);
  const lives = names.map((name) =>
    rowsOf(
      engine,
      `select * replace (cast(install_date as varchar) as install_date) from ${livesTable(name)} order by life_id`,
    ),
  );
  const episodes = rowsOf(engine, 'select * replace (cast(date as varchar) as date) from episodes order by episode_id');
  const fates = rowsOf(engine, 'select failure_id, fate, life_id from failure_fates_seal order by failure_id');
  return Promise.all([...lives, episodes, fates]);
}

it('rebuilds the same lives on both engines, and each understands every statement', async () => {
  const [native, wasm] = await Promise.all([openNodeEngine(), openWasmEngine()]);
  try {
    const expected = await everything(native);
    expect(expected[0]?.length).toBeGreaterThan(100);
    expect(await everything(wasm)).toEqual(expected);
    for (const engine of [native, wasm])
      for (const { text, values } of rebuildCatalogue) await engine.query({ text: `explain ${text}`, values });
  } finally {
    await native.close();
    await wasm.close();
  }
}, 300_000);
