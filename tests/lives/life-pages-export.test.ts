import { tableFromIPC } from 'apache-arrow';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { arrowFileOfParts } from '../../lib/engine/arrow-file.ts';
import { textColumn, type Engine, type ResultTable } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { openWasmEngine } from '../../lib/engine/wasm-node.ts';
import { exportStatement, livesInParts } from '../../lib/lives/life-pages-export.ts';
import { addedLifeColumns, lifeColumns } from '../../shared/lives.ts';
import { rebuild, rowsOf } from './record-tables-in-engine.ts';

const engines: Record<string, Engine> = {};
/** 30,000 vehicles of two wheel ends each: more lives than one part holds. */
const units = Array.from({ length: 30_000 }, (_, index) => ({
  ...{ unit_id: `T${index}`, axle_roles: 'steer', acquired: index % 3 ? 'new' : 'used' },
  ...{ in_service_date: '2020-01-01', in_service_miles: 0, out_date: '2021-01-01', out_miles: 1_000 + index },
}));
const services = [
  {
    service_id: 'S1',
    unit_id: 'T5',
    axle: 1,
    side: 'left',
    date: '2020-07-01',
    miles: 500,
    replaced: 'seal',
    shop: 'No"rth, ÄÖ',
  },
];

beforeAll(async () => {
  engines['native'] = await openNodeEngine();
  engines['wasm'] = await openWasmEngine();
  for (const engine of Object.values(engines))
    await (await rebuild(engine, { units, services }, { from: '2020-01-01', to: '2022-01-01' })).ensure('seal');
}, 120_000);
afterAll(async () => {
  for (const engine of Object.values(engines)) await engine.close();
});
const native = () => engines['native'] as Engine;

async function parts(engine: Engine, rows: Int32Array): Promise<ResultTable[]> {
  const found: ResultTable[] = [];
  for await (const part of livesInParts(engine, 'seal', rows)) found.push(part);
  return found;
}

test('all lives leave in parts that make up the lives table', async () => {
  const ids = (await rowsOf(native(), 'select life_id from lives_seal order by rowid')).map((row) => row['life_id']);
  expect(ids).toHaveLength(60_001);
  const found = await parts(native(), Int32Array.from(ids.keys()));
  expect(found.length).toBeGreaterThan(2);
  expect(found.flatMap((part) => textColumn(part, 'life_id'))).toEqual(ids);
  expect(Object.keys(found[0]?.columns ?? {})).toEqual([
    ...[...lifeColumns, ...addedLifeColumns].map(({ name }) => name),
  ]);
});

test('some lives in any order leave in the order of the table, on both engines', async () => {
  const rows = Int32Array.of(59_000, 3, 14, 15, 40_000, 9);
  const [native_, wasm] = [await parts(native(), rows), await parts(engines['wasm'] as Engine, rows)];
  expect(wasm).toEqual(native_);
  const ids = await rowsOf(
    native(),
    'select life_id from lives_seal where rowid in (3, 9, 14, 15, 40000, 59000) order by rowid',
  );
  expect(native_[0]?.columns['life_id']).toEqual(ids.map((row) => row['life_id']));
  for (const engine of Object.values(engines))
    for (const places of [rows, Int32Array.of(1, 2, 3), new Int32Array(0)]) {
      const { text, values } = exportStatement('seal', places);
      expect((await engine.query({ text: `explain ${text}`, values })).rows).toBeGreaterThan(0);
    }
});

test('an Arrow file of parts holds every row, and one of nothing its headers', async () => {
  const rows = Int32Array.from({ length: 50_000 }, (_, place) => place);
  const table = tableFromIPC(await arrowFileOfParts(livesInParts(native(), 'seal', rows)));
  expect([table.numRows, table.numCols]).toEqual([50_000, lifeColumns.length + addedLifeColumns.length]);
  const last = await rowsOf(native(), 'select life_id, exposure_miles from lives_seal where rowid = 49999');
  expect(table.getChild('life_id')?.get(49_999)).toBe(last[0]?.['life_id']);
  expect(table.getChild('exposure_miles')?.get(49_999)).toBe(last[0]?.['exposure_miles']);
  const none = tableFromIPC(await arrowFileOfParts(livesInParts(native(), 'seal', new Int32Array(0))));
  expect([none.numRows, none.numCols]).toEqual([0, lifeColumns.length + addedLifeColumns.length]);
});
