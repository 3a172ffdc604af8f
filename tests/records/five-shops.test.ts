import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoFiles } from '../../data/demo/demo-files.ts';
import { generateDemoFleet } from '../../data/demo/generate-demo-fleet.ts';
import { columnMapSchema, type ColumnMap } from '../../shared/column-map.ts';
import { deviationCodes, deviationColumn } from '../../shared/deviations.ts';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { identifier, joinSql, sql } from '../../lib/engine/statement.ts';
import { livesFromRecords, livesTable, proceduresOf } from '../../lib/lives/index.ts';
import {
  changedMap,
  previewMap,
  proposeMap,
  readRecords,
  sampleOf,
  UnitRoles,
  type Ask,
  type RecordSource,
} from '../../lib/records/index.ts';
import { fiveShops, numberedByOrder } from './five-shops.ts';
import { source } from './sources.ts';

/** What somebody who knows the five shops answers; nothing else may be asked of them. */
const answers: Readonly<Record<string, string>> = {
  driver: 'On the left',
  combination: 'Through the combination, behind 3 axles',
  'unit Mileage': 'mi',
  table: 'failures',
};

const answered = (map: ColumnMap, asks: readonly Ask[]): ColumnMap =>
  asks.reduce((now, { id, question, options }) => {
    const option = options.find(({ label }) => label.startsWith(answers[id] ?? '\0'));
    if (!option) throw new Error(`unexpected question: ${id}: ${question}`);
    return changedMap(now, option.set);
  }, map);

const fleet = numberedByOrder(generateDemoFleet({ units: 90 }));
const messy = fiveShops(fleet).map(({ name, text }) => source(name, text));
const canonical = demoFiles(fleet)
  .filter(({ name }) => !/truth|README|record-set/.test(name))
  .map(({ name, text }) => source(name, text));
const roles = new UnitRoles();
for (const { unit_id, axle_roles } of fleet.units) roles.add(unit_id, axle_roles);

async function mapOf(file: RecordSource): Promise<ColumnMap> {
  const sample = await sampleOf(file);
  if (typeof sample === 'string') throw new Error(`${file.name} ${sample}`);
  const { map, asks } = proposeMap(file.name, sample.headers, sample.rows, roles);
  const done = answered(map, asks);
  expect(columnMapSchema.safeParse(done).error).toBeUndefined();
  const preview = previewMap(done, sample, roles);
  if (typeof preview === 'string') throw new Error(`${file.name}: ${preview}`);
  expect([file.name, preview.columns.flatMap(({ reasons }) => reasons), preview.undecided]).toEqual([
    file.name,
    [],
    [],
  ]);
  return done;
}

/** What a life is, whatever its ids; Brackwell writes no material and Coldmere no technician. */
const told = [
  ...['unit_id', 'axle', 'side', 'state', 'mode', 'install_date', 'install_kind', 'life_number', 'prior_failures'],
  ...['shop', 'site', 'lubricant', 'hub_build', 'seal_lot', 'role', 'duty', 'mileage_quality', 'lining_contaminated'],
  ...deviationCodes.map(deviationColumn),
];
const miles = [
  'install_miles',
  'entry_miles',
  'exit_miles',
  'exposure_miles',
  'onset_lower_miles',
  'onset_upper_miles',
];

async function livesIn(engine: Engine, sources: readonly RecordSource[], maps: readonly ColumnMap[]) {
  const report = await readRecords(engine, sources, { maps });
  await (await livesFromRecords(engine, report, proceduresOf(report))).ensure('seal');
  const columns = [
    ...told.map((name) => sql`cast(${identifier(name)} as varchar) as ${identifier(name)}`),
    // Kilometres come back as the same miles to the thousandth.
    ...miles.map((name) => sql`round(${identifier(name)}, 3) + 0.0 as ${identifier(name)}`),
  ];
  const rows = await engine.query(sql`select ${joinSql(columns, ', ')} from ${identifier(livesTable('seal'))}
    order by unit_id, axle, side, install_miles nulls first, entry_miles`);
  return { report, rows };
}

describe('five shops that agree in nothing', () => {
  let engine: Engine;
  beforeAll(async () => {
    engine = await openNodeEngine({ threads: 1 });
  });
  afterAll(() => engine.close());

  it('give the lives that the same records give in our own form', async () => {
    const maps = await Promise.all(messy.filter(({ name }) => name !== 'services-outside.csv').map(mapOf));
    const ours = await livesIn(engine, canonical, []);
    const theirs = await livesIn(engine, messy, maps);
    expect(theirs.report.files.filter(({ refused }) => refused !== null)).toEqual([]);
    const setAside = theirs.report.files.filter((file) => file.setAside > 0).map(({ name, table }) => [name, table]);
    expect(setAside).toEqual([['north wo history.csv', null]]);
    const kept = (report: typeof ours.report, table: string) =>
      report.files.reduce((sum, file) => sum + (file.table === table ? file.kept : 0), 0);
    for (const table of ['units', 'readings', 'services', 'inspections', 'failures'])
      expect([table, kept(theirs.report, table)]).toEqual([table, kept(ours.report, table)]);
    expect(ours.rows.rows).toBeGreaterThan(500);
    expect(theirs.rows.rows).toBe(ours.rows.rows);
    for (const name of [...told, ...miles])
      expect([name, theirs.rows.columns[name]]).toEqual([name, ours.rows.columns[name]]);
  });
});
