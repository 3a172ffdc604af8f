import { createHash } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Progress } from '../../shared/record-set.ts';
import { recordTables, tableNames } from '../../shared/record-tables.ts';
import { textColumn, type Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { identifier, sql } from '../../lib/engine/statement.ts';
import { readRecords } from '../../lib/records/index.ts';
import { accountOf, asideOf, counts, keptRows, source } from './sources.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine({ threads: 1 });
});
afterAll(() => engine.close());

const services = (ids: readonly string[], side = 'left') =>
  `service_id,unit_id,axle,side,date\n${ids.map((id) => `${id},7,1,${side},2020-01-02\n`).join('')}`;
const units = source('units.csv', 'unit_id,axle_roles\n7,steer drive\n');
const tablesThere = async () => {
  const answer = await engine.query(sql`select table_name as name from information_schema.tables order by table_name`);
  return textColumn(answer, 'name');
};

describe('the tables', () => {
  it('are all five there, with the columns of the contract in their order and types', async () => {
    await readRecords(engine, [units]);
    const types = {
      text: 'VARCHAR',
      choice: 'VARCHAR',
      list: 'VARCHAR',
      date: 'DATE',
      number: 'DOUBLE',
      integer: 'INTEGER',
    };
    for (const table of tableNames) {
      const described = await engine.query(sql`select column_name, column_type from (describe ${identifier(table)})`);
      const expected = recordTables[table].map(({ name, kind }) => [name, types[kind]]);
      const names = textColumn(described, 'column_name');
      expect(textColumn(described, 'column_type').map((type, index) => [names[index], type])).toEqual([
        ...expected,
        ['file_id', 'INTEGER'],
        ['line', 'BIGINT'],
      ]);
    }
  });

  it('hold the accounts of the files under the number that rows carry', async () => {
    const report = await readRecords(engine, [units, source('services.csv', services(['a', 'b'], 'lft'))]);
    const files = await engine.query(sql`select * replace (file_id::varchar as file_id) from files order by file_id`);
    expect(textColumn(files, 'name')).toEqual(['services.csv', 'units.csv']);
    expect(textColumn(files, 'fingerprint')).toEqual(report.files.map(({ fingerprint }) => fingerprint));
    expect(files.columns['set_aside']).toEqual(Float64Array.of(2, 0));
    expect((await keptRows(engine, 'units'))[0]).toMatchObject({ file_id: '1', line: '2' });
  });

  it('take the rows of several files, whatever columns each has', async () => {
    await readRecords(engine, [
      source('units-a.csv', 'unit_id,axle_roles,duty\n1,steer,linehaul\n'),
      source('units-b.csv', 'home_shop,axle_roles,unit_id\nNorth,drive,2\n'),
      source('units-c.csv', 'unit_id,axle_roles\n3,trailer\n'),
    ]);
    expect((await keptRows(engine, 'units')).map(({ unit_id, duty, home_shop }) => [unit_id, duty, home_shop])).toEqual(
      [
        ['1', 'linehaul', null],
        ['2', null, 'North'],
        ['3', null, null],
      ],
    );
  });
});

describe('an id used twice', () => {
  it('counts once, by the order of file names and lines; the later rows name the first', async () => {
    const report = await readRecords(engine, [
      source('services-b.csv', services(['s2', 's3', 's1', 's3'])),
      source('services-a.csv', services(['s1', 's2'])),
    ]);
    expect(report.files.map((file) => [file.name, ...counts(file)])).toEqual([
      ['services-a.csv', 2, 2, 0],
      ['services-b.csv', 4, 1, 3],
    ]);
    expect(await asideOf(engine)).toMatchObject([
      {
        row: 2,
        column: 'service_id',
        value: 's2',
        reason: 'the id is already used by services-a.csv, row 3',
        original: 's2,7,1,left,2020-01-02',
      },
      { row: 4, value: 's1', reason: 'the id is already used by services-a.csv, row 2' },
      { row: 5, value: 's3', reason: 'the id is already used by services-b.csv, row 3' },
    ]);
  });

  it('is not used by a row that was set aside, nor by a file that was refused', async () => {
    const report = await readRecords(engine, [
      source('services-a.csv', services(['s1'], 'middle')),
      source('services-b.csv.gz', 'not packed'),
      source('services-c.csv', services(['s1'])),
    ]);
    expect(counts(accountOf(report, 'services-c.csv'))).toEqual([1, 1, 0]);
  });

  it('is told apart by case and leading zeros', async () => {
    const report = await readRecords(engine, [source('services.csv', services(['7', '07', 'a', 'A']))]);
    expect(counts(accountOf(report, 'services.csv'))).toEqual([4, 4, 0]);
  });

  it('does not matter in readings, which have none', async () => {
    const readings = 'unit_id,date,miles\n7,2020-01-02,5\n7,2020-01-02,5\n';
    const report = await readRecords(engine, [source('readings.csv', readings)]);
    expect(counts(accountOf(report, 'readings.csv'))).toEqual([2, 2, 0]);
  });

  it('is found among a hundred thousand', async () => {
    const ids = Array.from({ length: 100_000 }, (_, row) => `s${row % 99_990}`);
    const report = await readRecords(engine, [source('services.csv', services(ids))]);
    expect(counts(accountOf(report, 'services.csv'))).toEqual([100_000, 99_990, 10]);
    expect((await asideOf(engine)).map(({ value }) => value)).toEqual(ids.slice(-10));
  });
});

it('a file given twice under two names counts once', async () => {
  const readings = 'unit_id,date,miles\n7,2020-01-02,5\n8,never,5\n';
  const report = await readRecords(engine, [source('readings.csv', readings), source('readings-copy.csv', readings)]);
  expect(counts(accountOf(report, 'readings-copy.csv'))).toEqual([2, 1, 1]);
  expect(accountOf(report, 'readings.csv')).toMatchObject({
    read: 0,
    refused: 'is the same as readings-copy.csv, byte for byte, and counts once',
  });
  expect(await asideOf(engine)).toHaveLength(1);
  expect(await keptRows(engine, 'readings')).toHaveLength(1);
});

describe('record-set.json', () => {
  const said = (value: unknown) => source('set/record-set.json', JSON.stringify(value));

  it('says everything about its folder', async () => {
    const own = { name: 'North', invented: true, observedFrom: '2020-01-01', observedTo: '2021-01-01' };
    expect(await readRecords(engine, [units, said(own)])).toMatchObject({ ...own, procedures: [], messages: [] });
  });

  it('may be missing', async () => {
    expect(await readRecords(engine, [units])).toMatchObject({
      name: 'Your records',
      invented: false,
      observedFrom: null,
      observedTo: null,
    });
  });

  it.each([
    ['a day that is none', { observedFrom: '2020-02-30' }, /observedFrom/],
    ['a procedure that is none', { procedures: [{}] }, /procedures\.0/],
    ['a window that ends before it begins', { observedFrom: '2021-01-01', observedTo: '2020-01-01' }, /before it/],
    ['something that is no object', [], /as a whole/],
  ])('with %s is refused and said, and the rest is read', async (_, value, why) => {
    const report = await readRecords(engine, [units, said(value)]);
    expect(report).toMatchObject({ observedFrom: null, observedTo: null });
    expect(accountOf(report, 'set/record-set.json').refused).toMatch(why);
    expect(report.messages.join()).toMatch(why);
    expect(counts(accountOf(report, 'units.csv'))).toEqual([1, 1, 0]);
  });

  it('is refused where it is no JSON, or where there are two', async () => {
    const broken = await readRecords(engine, [units, source('record-set.json', '{')]);
    expect(accountOf(broken, 'record-set.json').refused).toMatch(/no JSON/);
    const two = await readRecords(engine, [said({ name: 'A' }), source('b/record-set.json', '{"name":"B"}'), units]);
    expect(two.name).toBe('Your records');
    expect(two.files.filter(({ refused }) => refused !== null)).toHaveLength(2);
  });
});

describe('the fingerprint', () => {
  it('is that of the used files in sorted order and of what the set says of itself', async () => {
    const report = await readRecords(engine, [
      units,
      source('services.csv', services(['a'])),
      source('readings.csv', ''),
    ]);
    const sha = (text: string) => createHash('sha256').update(text).digest('hex');
    const parts = [sha('unit_id,axle_roles\n7,steer drive\n'), sha(services(['a'])), sha('{}')].sort();
    expect(report.fingerprint).toBe(sha(parts.join('\n')));
  });

  it('is the same in whatever order the files come, and another when a byte or the window changes', async () => {
    const other = source('services.csv', services(['a']));
    const first = await readRecords(engine, [units, other]);
    expect((await readRecords(engine, [other, units])).fingerprint).toBe(first.fingerprint);
    const changed = await readRecords(engine, [units, source('services.csv', services(['b']))]);
    expect(changed.fingerprint).not.toBe(first.fingerprint);
    const window = source('record-set.json', '{"observedFrom":"2020-01-01"}');
    expect((await readRecords(engine, [units, other, window])).fingerprint).not.toBe(first.fingerprint);
  });
});

describe('while it reads', () => {
  it('it says what it does and how far it is, never going back', async () => {
    const told: Progress[] = [];
    await readRecords(
      engine,
      [units, source('services.csv', services(Array.from({ length: 999 }, (_, id) => `s${id}`)), 1000)],
      {
        onProgress: (progress) => told.push(progress),
      },
    );
    expect(told[0]).toEqual({ doing: 'Reading units.csv', share: expect.any(Number) as number });
    const shares = told.flatMap(({ share }) => (share === null ? [] : [share]));
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    expect(shares.at(-1)).toBe(1);
    expect(shares.length).toBeGreaterThan(10);
  });

  it.each([0, 5, 60])('an abort after %i steps leaves the tables that stood, and nothing else', async (steps) => {
    await readRecords(engine, [units]);
    const before = await tablesThere();
    const stop = new AbortController();
    let step = 0;
    const ids = Array.from({ length: 20_000 }, (_, id) => `s${id}`);
    const reading = readRecords(
      engine,
      [source('units.csv', 'unit_id,axle_roles\n9,steer\n'), source('services.csv', services(ids), 8192)],
      {
        signal: stop.signal,
        onProgress: () => {
          if (step++ === steps) stop.abort(new Error('enough'));
        },
      },
    );
    await expect(reading).rejects.toThrow('enough');
    expect((await keptRows(engine, 'units')).map(({ unit_id }) => unit_id)).toEqual(['7']);
    expect(await tablesThere()).toEqual(before);
  });

  it('a failure of the engine is not blamed on the file, and leaves the tables that stood', async () => {
    await readRecords(engine, [units]);
    const failing: Engine = {
      ...bound(engine),
      append: (table, columns) =>
        table.endsWith('_services') ? Promise.reject(new Error('out of memory')) : engine.append(table, columns),
    };
    await expect(readRecords(failing, [source('services.csv', services(['a']))])).rejects.toThrow('out of memory');
    expect(await keptRows(engine, 'units')).toHaveLength(1);
  });
});

const bound = (whole: Engine): Engine => ({
  appendsBeside: whole.appendsBeside,
  run: whole.run.bind(whole),
  runTogether: whole.runTogether.bind(whole),
  query: whole.query.bind(whole),
  append: whole.append.bind(whole),
  close: whole.close.bind(whole),
});
