import { readRecords } from './histories.ts';
import { livesByHand } from './lives-by-hand.ts';
import { livesTable } from '../../../lib/lives/index.ts';
import { components, type Component } from '../../../shared/vocabulary.ts';
import { addedLifeColumns, lifeColumns } from '../../../shared/lives.ts';
import type { Engine } from '../../../lib/engine/engine.ts';
import { commonPractice, rebuild, rowsOf, type Row } from '../record-tables-in-engine.ts';
import type { Procedure } from '../../../shared/procedure.ts';
import type { Drawn } from './arbitrary-histories.ts';

export const componentNames = Object.keys(components) as Component[];
const same = (a: unknown, b: unknown) =>
  typeof a === 'number' && typeof b === 'number' ? Math.abs(a - b) < 1e-6 : (a ?? null) === (b ?? null);

export async function differences(
  engine: Engine,
  { fleet, window }: Drawn,
  procedures: readonly Procedure[] = [commonPractice],
) {
  const source = await rebuild(engine, fleet, window, procedures);
  const records = readRecords(fleet, window, procedures);
  const found: { unit: string; life: string; column: string; lib: unknown; oracle: unknown }[] = [];
  let count = 0;
  for (const component of componentNames) {
    await source.ensure(component);
    const built = await rowsOf(
      engine,
      `select * replace (cast(install_date as varchar) as install_date) from ${livesTable(component)}`,
    );
    const byHand = livesByHand(component, records);
    count += byHand.lives.length;
    const theirs = new Map(built.map((row) => [String(row['life_id']), row]));
    const ours = new Map(byHand.lives.map((row) => [String(row['life_id']), row]));
    for (const [life, row] of theirs)
      if (!ours.has(life))
        found.push({ unit: String(row['unit_id']), life, column: 'EXTRA in lib', lib: row['state'], oracle: null });
    for (const [life, row] of ours) {
      const other: Row | undefined = theirs.get(life);
      if (!other)
        found.push({ unit: String(row['unit_id']), life, column: 'MISSING in lib', lib: null, oracle: row['state'] });
      else
        for (const name of [...lifeColumns, ...addedLifeColumns].map((column) => column.name))
          if (!same(row[name], other[name]))
            found.push({ unit: String(row['unit_id']), life, column: name, lib: other[name], oracle: row[name] });
    }
  }
  return { found, count, ends: records.wheelEnds.size };
}
