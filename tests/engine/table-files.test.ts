import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  DateDay,
  DateMillisecond,
  Dictionary,
  Int8,
  Table,
  TimestampSecond,
  Utf8,
  tableToIPC,
  vectorFromArray,
} from 'apache-arrow';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { numberColumn, textColumn } from '../../lib/engine/engine.ts';
import { openNodeEngine, openTableFile, saveTableFile, type NativeEngine } from '../../lib/engine/node.ts';
import { identifier, sql } from '../../lib/engine/statement.ts';

describe('files that hold one table', () => {
  let engine: NativeEngine;
  let folder: string;
  beforeAll(async () => {
    engine = await openNodeEngine();
    folder = await mkdtemp(join(tmpdir(), 'hubcause-table-'));
    await engine.run(sql`create table lives as
      select 'life ' || range as life_id, if(range = 1, null, range * 1000.5)::double as exit_miles,
        if(range = 2, null, date '2024-02-28' + range::integer) as install_date from range(4)`);
  });
  afterAll(async () => {
    await engine.close();
    await rm(folder, { recursive: true });
  });
  const expected = {
    life_id: ['life 0', 'life 1', 'life 2', 'life 3'],
    exit_miles: Float64Array.of(0, NaN, 2001, 3001.5),
    // 2024 is a leap year.
    install_date: ['2024-02-28', '2024-02-29', null, '2024-03-02'],
  };

  it.each(['parquet', 'csv', 'arrow'])('come back from .%s as they went', async (ending) => {
    const path = join(folder, `it's lives.${ending}`);
    const days = sql`select * replace (install_date::varchar as install_date) from lives`;
    await saveTableFile(engine, ending === 'arrow' ? days : sql`select * from lives`, path);
    await openTableFile(engine, path, 'opened');
    const answer = await engine.query(sql`select life_id, exit_miles::double as exit_miles,
      install_date::date::varchar as install_date from opened`);
    expect(answer.columns).toEqual(expected);
  });

  it.each(['parquet', 'csv', 'arrow'])(
    'give back from .%s texts that a spreadsheet would run, and run none',
    async (ending) => {
      const path = join(folder, `runnable.${ending}`);
      const texts = ['=1+1', '-5', '+1', '@A1', "'=1", "''-5", "'plain", 'a,"b"', '\t=1', null];
      await engine.run(sql`create or replace table runnable (text varchar, miles double)`);
      await engine.append('runnable', { text: texts, miles: new Float64Array(texts.length).fill(-5) });
      await saveTableFile(engine, sql`select * from runnable`, path);
      await openTableFile(engine, path, 'opened');
      const answer = await engine.query(sql`select text, miles::double as miles from opened`);
      expect(textColumn(answer, 'text')).toEqual(texts);
      expect(numberColumn(answer, 'miles')).toEqual(new Float64Array(texts.length).fill(-5));
      if (ending !== 'csv') return;
      const lines = (await readFile(path, 'utf8')).split('\n');
      expect(lines.slice(1, 5)).toEqual(["'=1+1,-5.0", "'-5,-5.0", "'+1,-5.0", "'@A1,-5.0"]);
    },
  );

  it('keeps the types of Parquet', async () => {
    const path = join(folder, 'typed.parquet');
    await saveTableFile(engine, sql`select * from lives where exit_miles > ${2500}`, path);
    await openTableFile(engine, path, 'typed');
    const types = await engine.query(sql`select column_type from (describe typed)`);
    expect(textColumn(types, 'column_type')).toEqual(['VARCHAR', 'DOUBLE', 'DATE']);
    expect((await engine.query(sql`select life_id from typed`)).rows).toBe(1);
  });

  it('reads the Arrow types that other programs write', async () => {
    const day = Date.UTC(2024, 1, 29);
    const table = new Table({
      day: vectorFromArray([day, null], new DateDay()),
      milliseconds: vectorFromArray([day, null], new DateMillisecond()),
      moment: vectorFromArray([day + 3_600_000, null], new TimestampSecond()),
      word: vectorFromArray(['oil', 'oil'], new Dictionary(new Utf8(), new Int8())),
      flag: vectorFromArray([true, null]),
      whole: vectorFromArray([7n, null]),
    });
    for (const kind of ['file', 'stream'] as const) {
      const path = join(folder, `${kind}.arrow`);
      await writeFile(path, tableToIPC(table, kind));
      await openTableFile(engine, path, 'foreign');
      const answer = await engine.query(sql`select * from ${identifier('foreign')}`);
      for (const name of ['day', 'milliseconds', 'moment'])
        expect(textColumn(answer, name)).toEqual(['2024-02-29', null]);
      expect(textColumn(answer, 'word')).toEqual(['oil', 'oil']);
      expect([...numberColumn(answer, 'flag')]).toEqual([1, NaN]);
      expect([...numberColumn(answer, 'whole')]).toEqual([7, NaN]);
    }
  });

  it.each([
    ['an unclosed quote', 'a,b\n1,"x\n2,y\n3,z\n'],
    ['a row too long', 'a,b\n1,x,3\n2,y\n'],
    ['a row too short', 'a,b\n1\n2,y\n'],
  ])('refuse a CSV with %s whole', async (_, text) => {
    const path = join(folder, 'broken.csv');
    await writeFile(path, text);
    await expect(openTableFile(engine, path, 'broken')).rejects.toThrow(/broken.csv cannot be read whole/);
    await expect(engine.query(sql`select * from broken`)).rejects.toThrow(/broken/);
  });

  it('say so where the kind is unknown or the file is not there', async () => {
    await expect(openTableFile(engine, join(folder, 'lives.doc'), 'x')).rejects.toThrow(/has to end in/);
    await expect(openTableFile(engine, join(folder, 'missing.parquet'), 'x')).rejects.toThrow(/missing.parquet/);
    await expect(saveTableFile(engine, sql`select 1`, join(folder, 'lives.doc'))).rejects.toThrow(/has to end in/);
  });
});

describe('a native engine opened with options', () => {
  it('keeps its tables in a file, within its memory and threads', async () => {
    const folder = await mkdtemp(join(tmpdir(), 'hubcause-engine-'));
    const path = join(folder, 'records.db');
    const first = await openNodeEngine({ path, memoryLimit: '512MiB', threads: 1 });
    await first.run(sql`create table kept as select 5 as five`);
    const settings = await first.query(sql`
      select current_setting('threads')::double as threads, current_setting('memory_limit') as memory`);
    expect(numberColumn(settings, 'threads')[0]).toBe(1);
    expect(textColumn(settings, 'memory')).toEqual(['512.0 MiB']);
    await first.close();
    const second = await openNodeEngine({ path });
    expect(numberColumn(await second.query(sql`select five from kept`), 'five')[0]).toBe(5);
    await second.close();
    await rm(folder, { recursive: true });
  });
});
