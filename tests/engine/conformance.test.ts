import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { numberColumn, textColumn, type Engine } from '../../lib/engine/engine.ts';
import { identifier, joinSql, sql } from '../../lib/engine/statement.ts';
import { engines, openingTime } from './engines.ts';

describe.each(engines)('the $name engine', ({ open }) => {
  let engine: Engine;
  beforeAll(async () => {
    engine = await open();
  }, openingTime);
  afterAll(() => engine.close());

  it('decodes every numeric type to doubles, booleans to 0 and 1, text to text', async () => {
    const answer = await engine.query(sql`
      select true as yes, false as no, 7::tinyint as t, -7::smallint as s, 70000 as i, 7000000000::bigint as b,
        sum(range) as h, 200::utinyint as ut, 1.5::float as f, 0.1::double as d, 12.34::decimal(10, 2) as dec,
        -0.001::decimal(18, 3) as small, 123456789012.345678::decimal(30, 6) as wide, 'it' as text,
        null as nothing
      from range(5)`);
    expect(answer.rows).toBe(1);
    const numbers = Object.fromEntries(
      Object.entries(answer.columns).flatMap(([name, column]) =>
        column instanceof Float64Array ? [[name, column[0]]] : [],
      ),
    );
    expect(numbers).toEqual({
      yes: 1,
      no: 0,
      t: 7,
      s: -7,
      i: 70000,
      b: 7e9,
      h: 0 + 1 + 2 + 3 + 4,
      ut: 200,
      f: 1.5,
      d: 0.1,
      dec: 12.34,
      small: -0.001,
      wide: 123456789012.345678,
      nothing: NaN,
    });
    expect(textColumn(answer, 'text')).toEqual(['it']);
  });

  it('gives NaN and null for NULL in every type, whatever stands in the slot', async () => {
    const answer = await engine.query(sql`
      select if(known, 1, null) as i, if(known, 2.5::double, null) as d, if(known, 3::bigint, null) as b,
        if(known, true, null) as yes, if(known, 1.25::decimal(5, 2), null) as dec, if(known, 'x', null) as text,
        if(known, '', null) as blank
      from (select unnest([true, false, true]) as known)`);
    const value = { i: 1, d: 2.5, b: 3, yes: 1, dec: 1.25 };
    for (const [name, known] of Object.entries(value)) {
      expect([...numberColumn(answer, name)], name).toEqual([known, NaN, known]);
    }
    expect(textColumn(answer, 'text')).toEqual(['x', null, 'x']);
    expect(textColumn(answer, 'blank')).toEqual(['', null, '']);
  });

  it.each([
    ['date', sql`select date '2024-02-29' as x`],
    ['timestamp', sql`select timestamp '2024-02-29 12:00:00' as x`],
    ['enumeration', sql`select 'a'::enum('a', 'b') as x`],
    ['list', sql`select [1, 2] as x`],
    ['a whole number beyond 2^53', sql`select 9007199254740993::bigint as x`],
    ['a huge sum', sql`select sum(9007199254740993::bigint) as x`],
  ])('refuses to let out a %s uncast, naming the column', async (_, statement) => {
    await expect(engine.query(statement)).rejects.toThrow(/column x .*cast/);
  });

  it('lets dates out as ISO text', async () => {
    const answer = await engine.query(sql`select (date '2024-02-29' + 1)::varchar as day`);
    expect(textColumn(answer, 'day')).toEqual(['2024-03-01']);
  });

  it('keeps rows in order over many vectors and batches', async () => {
    const answer = await engine.query(sql`
      select range::double as i, if(range % 3 = 0, null, 'row ' || range) as t from range(10000)`);
    expect(answer.rows).toBe(10000);
    expect(numberColumn(answer, 'i').every((value, row) => value === row)).toBe(true);
    const expected = Array.from({ length: 10000 }, (_, row) => (row % 3 === 0 ? null : `row ${row}`));
    expect(textColumn(answer, 't')).toEqual(expected);
  });

  it.each([
    "it's a '' quote",
    '',
    'back\\slash \\n',
    '"double" $$dollar$$ -- no comment /* nor this */ ?',
    'Köln – 軸 🚛',
    'mark \uFEFF within',
    'line\r\nline\ttab',
    "nul \0 '\0' inside",
    'x'.repeat(100_000),
  ])('carries the text %j as a parameter, unchanged', async (text) => {
    const answer = await engine.query(sql`select ${text} as value, length(${text}) as n`);
    expect(textColumn(answer, 'value')).toEqual([text]);
    expect(numberColumn(answer, 'n')[0]).toBe([...text].length);
  });

  it.each([0, -1, 0.1, 1e300, -5e-324, 2 ** 53, 1 / 3, NaN, Infinity, -Infinity])(
    'carries the number %d as a parameter of type DOUBLE',
    async (number) => {
      const answer = await engine.query(sql`select ${number} as value, typeof(${number}) as type`);
      expect(numberColumn(answer, 'value')[0]).toBe(number);
      expect(textColumn(answer, 'type')).toEqual(['DOUBLE']);
    },
  );

  it('carries null, and several parameters in their order', async () => {
    const list = joinSql([sql`${'b'}`, sql`${'a?'}`], ', ');
    const answer = await engine.query(sql`
      select ${null} is null as missing, '?' as mark, list_value(${list})[2] as second, 10 - ${4} as six /* ? */ -- ?`);
    expect(numberColumn(answer, 'missing')[0]).toBe(1);
    expect(textColumn(answer, 'mark')).toEqual(['?']);
    expect(textColumn(answer, 'second')).toEqual(['a?']);
    expect(numberColumn(answer, 'six')[0]).toBe(6);
  });

  it('takes parameters in statements that make and change tables', async () => {
    await engine.run(sql`create or replace table parameters as
      select range as i, ${'x'} as t from range(10) where range >= ${4} limit ${3}::bigint`);
    await engine.run(sql`insert into parameters values (${100}, ${"o'clock"})`);
    await engine.run(sql`update parameters set t = ${'y'} where i = ${5}`);
    await engine.run(sql`delete from parameters where i = ${4}`);
    const answer = await engine.query(sql`select i::double as i, t from parameters order by i`);
    expect([...numberColumn(answer, 'i')]).toEqual([5, 6, 100]);
    expect(textColumn(answer, 't')).toEqual(['y', 'x', "o'clock"]);
  });

  it('refuses a statement whose values and placeholders differ in number', async () => {
    await expect(engine.query({ text: 'select ? as a, ? as b', values: [1] })).rejects.toThrow();
    await expect(engine.query({ text: 'select ? as a', values: [1, 2] })).rejects.toThrow();
    await expect(engine.query({ text: 'select ? as a', values: [] })).rejects.toThrow();
  });

  it('quotes names from the schema', async () => {
    const name = identifier('odd "name" of select');
    await engine.run(sql`create or replace table ${name} (${identifier('column')} integer)`);
    const answer = await engine.query(sql`select ${identifier('column')} from ${name}`);
    expect(answer).toEqual({ rows: 0, columns: { column: new Float64Array(0) } });
  });

  it('answers an empty result with its columns in their kinds', async () => {
    const answer = await engine.query(sql`
      select 1 as i, 'x' as t, 1.5::decimal(4, 1) as d, sum(2) as s where 1 = 2 group by 1`);
    expect(answer.rows).toBe(0);
    expect(answer.columns).toEqual({
      i: new Float64Array(0),
      t: [],
      d: new Float64Array(0),
      s: new Float64Array(0),
    });
  });

  it('rejects what DuckDB rejects, with its message, and goes on working', async () => {
    await expect(engine.query(sql`select nothing_here from nowhere`)).rejects.toThrow(/nowhere/);
    await expect(engine.run(sql`selec 1`)).rejects.toThrow(/selec/);
    await expect(engine.query(sql`select ${'x'}::integer as i`)).rejects.toThrow(/convert/i);
    expect(numberColumn(await engine.query(sql`select 1 as one`), 'one')[0]).toBe(1);
  });

  it('looks for no extension on the network', async () => {
    const answer = await engine.query(sql`
      select name, value from duckdb_settings()
      where name in ('autoinstall_known_extensions', 'autoload_known_extensions')`);
    expect(textColumn(answer, 'value')).toEqual(['false', 'false']);
  });

  it('runs statements together or not at all', async () => {
    await engine.run(sql`create or replace table together (i integer)`);
    const count = async () => numberColumn(await engine.query(sql`select count(*) as n from together`), 'n')[0];
    await engine.runTogether([sql`insert into together values (1)`, sql`insert into together values (2)`]);
    expect(await count()).toBe(2);
    const failing = [sql`delete from together`, sql`insert into together values ('no number')`];
    await expect(engine.runTogether(failing)).rejects.toThrow(/convert/i);
    expect(await count()).toBe(2);
  });

  it('replaces a table by another in one transaction', async () => {
    await engine.run(sql`create or replace table current as select 1 as i`);
    await engine.run(sql`create or replace table next as select 2 as i`);
    await engine.runTogether([sql`drop table if exists current`, sql`alter table next rename to current`]);
    expect(numberColumn(await engine.query(sql`select i from current`), 'i')[0]).toBe(2);
  });

  it('gives each caller its turn: nothing runs inside the transaction of another', async () => {
    await engine.run(sql`create or replace table turns (i integer)`);
    const failing = engine.runTogether([sql`insert into turns values (1)`, sql`insert into turns values ('x')`]);
    const other = engine.run(sql`insert into turns values (5)`);
    await expect(failing).rejects.toThrow();
    await other;
    expect([...numberColumn(await engine.query(sql`select i from turns`), 'i')]).toEqual([5]);
  });

  describe('aborted', () => {
    const long = sql`select count(*) as n from range(100000000) a(i) where sin(i) + cos(i) > 1.2`;

    it('rejects at once where the signal has already gone, and runs nothing', async () => {
      await engine.run(sql`create or replace table untouched as select 1 as i`);
      const reason = new Error('stopped by the reader');
      await expect(engine.run(sql`drop table untouched`, AbortSignal.abort(reason))).rejects.toBe(reason);
      expect((await engine.query(sql`select * from untouched`)).rows).toBe(1);
    });

    it('ends a running query within two seconds and goes on working', async () => {
      const started = performance.now();
      await expect(engine.query(long, AbortSignal.timeout(150))).rejects.toThrow(/timeout/i);
      expect(performance.now() - started).toBeLessThan(2000);
      expect(numberColumn(await engine.query(sql`select 1 as one`), 'one')[0]).toBe(1);
    });

    it('leaves no half-made table and keeps the one that stood', async () => {
      await engine.run(sql`create or replace table standing as select 1 as i`);
      const replacing = sql`create or replace table standing as
        select range as i from range(100000000) where sin(range) > 2`;
      await expect(engine.runTogether([replacing], AbortSignal.timeout(100))).rejects.toThrow(/timeout/i);
      const fresh = sql`create table half_made as select range as i from range(100000000) where sin(range) > 2`;
      await expect(engine.run(fresh, AbortSignal.timeout(100))).rejects.toThrow(/timeout/i);
      expect([...numberColumn(await engine.query(sql`select i from standing`), 'i')]).toEqual([1]);
      await expect(engine.query(sql`select * from half_made`)).rejects.toThrow(/half_made/);
    });

    it('never runs a call that was aborted while it waited for its turn', async () => {
      const stop = new AbortController();
      const first = engine.query(long, AbortSignal.timeout(200));
      const waiting = engine.run(sql`create table never as select 1 as i`, stop.signal);
      stop.abort();
      await expect(first).rejects.toThrow();
      await expect(waiting).rejects.toThrow(/abort/i);
      await expect(engine.query(sql`select * from never`)).rejects.toThrow(/never/);
    });
  });
});
