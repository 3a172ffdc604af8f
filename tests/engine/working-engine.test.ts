import { existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { numberColumn } from '../../lib/engine/engine.ts';
import { openWorkingEngine } from '../../lib/engine/node.ts';
import { sql } from '../../lib/engine/statement.ts';

const before = process.env['TMPDIR'];
let temporary = '';
beforeEach(() => {
  temporary = mkdtempSync(join(tmpdir(), 'working-'));
  process.env['TMPDIR'] = temporary;
});
afterEach(() => {
  if (before === undefined) delete process.env['TMPDIR'];
  else process.env['TMPDIR'] = before;
  rmSync(temporary, { recursive: true });
});

it('works on few bytes in memory', async () => {
  const engine = await openWorkingEngine(10, 100);
  expect(readdirSync(temporary)).toEqual([]);
  await engine.close();
});

it('works on many over a database beside, holding a bounded part, and leaves nothing behind', async () => {
  const engine = await openWorkingEngine(101, 100);
  const [folder = ''] = readdirSync(temporary);
  expect(existsSync(join(temporary, folder, 'records.duckdb'))).toBe(true);
  const limit = await engine.query(sql`select current_setting('memory_limit') as held`);
  // DuckDB takes 4GB as powers of ten and says it in powers of two.
  expect(limit.columns['held']).toEqual(['3.7 GiB']);
  await engine.run(sql`create table t as select range as n from range(1000)`);
  expect(numberColumn(await engine.query(sql`select cast(sum(n) as double) as s from t`), 's')[0]).toBe(499_500);
  await engine.close();
  expect(readdirSync(temporary)).toEqual([]);
});

it('has packed what was appended, and leaves the settings as they were', async () => {
  const engine = await openWorkingEngine(10, 100);
  const threshold = sql`select current_setting('checkpoint_threshold') as bytes`;
  const before = await engine.query(threshold);
  await engine.run(sql`create table t (w varchar)`);
  const words = ['left', 'right', 'inspection-finding'];
  const codes = Uint8Array.from({ length: 122_880 }, (_, row) => 1 + (row % words.length));
  await engine.append('t', { w: { codes, words } });
  const loose = sql`select 1 from pragma_storage_info('t') where segment_type = 'VARCHAR' and compression = 'Uncompressed'`;
  expect((await engine.query(loose)).rows).toBe(0);
  expect(await engine.query(threshold)).toEqual(before);
  await engine.close();
});
