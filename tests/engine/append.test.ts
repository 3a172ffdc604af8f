import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { numberColumn, textColumn, type AppendColumn, type Engine } from '../../lib/engine/engine.ts';
import { sql } from '../../lib/engine/statement.ts';
import { textBuffer } from '../../lib/engine/text-buffer.ts';
import { engines, openingTime } from './engines.ts';

const words = ['left', 'right', 'inspection-finding'];

/** Rows of every kind, with a null in every third place and texts on both sides of DuckDB's 12 inline bytes. */
function sample(rows: number) {
  const gap = (row: number) => row % 3 === 1;
  const text = Array.from({ length: rows }, (_, row) => (gap(row) ? null : 'ü'.repeat(row % 9) + row));
  return {
    d: Float64Array.from({ length: rows }, (_, row) => (gap(row) ? NaN : row / 7)),
    i: Float64Array.from({ length: rows }, (_, row) => (gap(row) ? NaN : row - 5)),
    b: Float64Array.from({ length: rows }, (_, row) => (gap(row) ? NaN : (row - 5) * 1e10)),
    day: Float64Array.from({ length: rows }, (_, row) => (gap(row) ? NaN : row - 1000)),
    t: text,
    u: textBuffer(text),
    w: { codes: Uint8Array.from({ length: rows }, (_, row) => row % (words.length + 1)), words },
  } satisfies Record<string, AppendColumn>;
}

const isoDay = (days: number) => new Date(days * 86_400_000).toISOString().slice(0, 10);

describe.each(engines)('appending to the $name engine', ({ open }) => {
  let engine: Engine;
  beforeAll(async () => {
    engine = await open();
  }, openingTime);
  afterAll(() => engine.close());
  const table = sql`create or replace table filled
    (d double, i integer, b bigint, day date, t varchar, u varchar, w varchar)`;

  it.each([0, 1, 2048, 2049, 100_000])('brings %i rows in, nulls and all, in order', async (rows) => {
    await engine.run(table);
    const given = sample(rows);
    expect(await engine.append('filled', given)).toBe(rows);
    const answer = await engine.query(sql`select * replace (day::varchar as day) from filled`);
    expect(answer.rows).toBe(rows);
    for (const name of ['d', 'i', 'b'] as const) expect(numberColumn(answer, name), name).toEqual(given[name]);
    expect(textColumn(answer, 't')).toEqual(given.t);
    expect(textColumn(answer, 'u')).toEqual(given.t);
    const days = Array.from(given.day, (days) => (Number.isNaN(days) ? null : isoDay(days)));
    expect(textColumn(answer, 'day')).toEqual(days);
    expect(textColumn(answer, 'w')).toEqual(Array.from(given.w.codes, (code) => words[code - 1] ?? null));
  });

  it('adds to what is there', async () => {
    await engine.run(table);
    await engine.append('filled', sample(3));
    expect(await engine.append('filled', sample(4))).toBe(4);
    expect(numberColumn(await engine.query(sql`select count(*) as n from filled`), 'n')[0]).toBe(7);
  });

  it('keeps empty text apart from null', async () => {
    await engine.run(sql`create or replace table blank (t varchar)`);
    await engine.append('blank', { t: ['', null, ' '] });
    expect(textColumn(await engine.query(sql`select t from blank`), 't')).toEqual(['', null, ' ']);
  });

  it.each<[string, RegExp, Record<string, AppendColumn>]>([
    ['columns out of order', /has the columns a, t/, { t: ['x'], a: Float64Array.of(1) }],
    ['a missing column', /given were a/, { a: Float64Array.of(1) }],
    ['columns of different length', /differ in length/, { a: Float64Array.of(1, 2), t: ['x'] }],
    ['text for a number', /a is INTEGER; text cannot/, { a: ['1'], t: ['x'] }],
    ['numbers for text', /t is VARCHAR; numbers cannot/, { a: Float64Array.of(1), t: Float64Array.of(1) }],
    ['a fraction for INTEGER', /1.5 does not fit/, { a: Float64Array.of(1.5), t: ['x'] }],
    ['too large for INTEGER', /3000000000 does not fit/, { a: Float64Array.of(3e9), t: ['x'] }],
    ['infinity for INTEGER', /Infinity does not fit/, { a: Float64Array.of(Infinity), t: ['x'] }],
  ])('refuses %s and appends nothing', async (_, message, columns) => {
    await engine.run(sql`create or replace table strict (a integer, t varchar)`);
    await expect(engine.append('strict', columns)).rejects.toThrow(message);
    expect((await engine.query(sql`select * from strict`)).rows).toBe(0);
  });

  it('refuses a table that is not there', async () => {
    await expect(engine.append('nowhere', { a: ['x'] })).rejects.toThrow(/no table nowhere/);
  });
});
