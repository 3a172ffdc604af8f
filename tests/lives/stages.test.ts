import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { numberColumn, type Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { sql } from '../../lib/engine/statement.ts';
import { runAll } from '../../lib/lives/stages.ts';

const [wheelEnds, units] = [100_000, 40_000];

describe('tables made in pieces', () => {
  let engine: Engine;
  beforeAll(async () => {
    engine = await openNodeEngine();
    await engine.run(
      sql`create table work_wheel_ends as select range + 1 as wheel_end from range(${wheelEnds}::bigint)`,
    );
    await engine.run(
      sql`create table work_unit_miles as select 'unit ' || range as unit_id from range(${units}::bigint)`,
    );
  });
  afterAll(() => engine.close());

  it('hold the rows of every wheel end once, in their order', async () => {
    const made = { table: 'ends', by: 'wheel_end' as const };
    await runAll(engine, [
      { ...made, rows: (piece) => sql`select wheel_end from work_wheel_ends where ${piece} order by wheel_end` },
    ]);
    const found = numberColumn(await engine.query(sql`select wheel_end from ends order by rowid`), 'wheel_end');
    expect(found).toEqual(Float64Array.from({ length: wheelEnds }, (_, at) => at + 1));
  });

  it('hold the rows of every unit once', async () => {
    const made = { table: 'some_units', by: 'unit_id' as const };
    await runAll(engine, [{ ...made, rows: (piece) => sql`select unit_id from work_unit_miles where ${piece}` }]);
    const counted = await engine.query(sql`select count(*) as n, count(distinct unit_id) as different from some_units`);
    expect([counted.columns['n']?.[0], counted.columns['different']?.[0]]).toEqual([units, units]);
  });

  it('take the place of a table that stood, and come without a row where there is no wheel end', async () => {
    await engine.run(sql`create table gone as select 1 as wheel_end`);
    await engine.run(sql`create or replace table work_wheel_ends as select 1 as wheel_end where false`);
    const rows = (piece: ReturnType<typeof sql>) => sql`select wheel_end from work_wheel_ends where ${piece}`;
    await runAll(engine, [{ table: 'gone', by: 'wheel_end', rows }]);
    expect((await engine.query(sql`select * from gone`)).rows).toBe(0);
  });

  it('stop between two pieces', async () => {
    const abort = new AbortController();
    await engine.run(sql`create or replace table work_wheel_ends as select range + 1 as wheel_end from range(100000)`);
    let pieces = 0;
    const rows = (piece: ReturnType<typeof sql>) => {
      if (++pieces === 2) abort.abort(new Error('given up'));
      return sql`select wheel_end from work_wheel_ends where ${piece}`;
    };
    await expect(runAll(engine, [{ table: 'parts', by: 'wheel_end', rows }], abort.signal)).rejects.toThrow('given up');
    expect(pieces).toBe(2);
  });
});
