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
