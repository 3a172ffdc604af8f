import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { readRecords } from '../../lib/records/index.ts';
import { accountOf, asideOf, counts, keptRows, source } from './sources.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine({ threads: 1 });
});
afterAll(() => engine.close());

const read = async (name: string, content: string | Uint8Array) => {
  const report = await readRecords(engine, [source(name, content)]);
  return { account: accountOf(report, name), messages: report.messages };
};

const table = 'unit_id,axle_roles,duty\n007,steer drive,linehaul\n008,trailer,\n';
const utf16 = (text: string, mark: boolean, big: boolean) => {
  const bytes = Buffer.from(mark ? `\uFEFF${text}` : text, 'utf16le');
  return new Uint8Array(big ? bytes.swap16() : bytes);
};

describe('a file is read', () => {
  it.each<[string, string, string | Uint8Array]>([
    ['tabs', 'units.tsv', table.replaceAll(',', '\t')],
    ['semicolons', 'units.csv', table.replaceAll(',', ';')],
    ['bars', 'units.txt', table.replaceAll(',', '|')],
    ['a byte order mark', 'units.csv', `\uFEFF${table}`],
    ['quoted headers in other letters', 'units.csv', table.replace('unit_id,axle_roles', '"Unit_ID", AXLE_ROLES ')],
    ['a delimiter behind every row', 'units.csv', table.replaceAll('\n', ',\n')],
    ['a delimiter behind the headers only', 'units.csv', table.replace('\n', ',,\n')],
    ['a delimiter behind the rows only', 'units.csv', table.replace('haul\n', 'haul,\n').replace(',\n', ',\n')],
    ['UTF-16 with its mark', 'units.csv', utf16(table, true, false)],
    ['UTF-16, big end first', 'units.csv', utf16(table, true, true)],
    ['UTF-16 without a mark', 'units.csv', utf16(table, false, false)],
    ['gzip', 'units.csv.gz', new Uint8Array(gzipSync(table))],
    [
      'gzip in two members',
      'units.csv.gz',
      new Uint8Array(Buffer.concat([gzipSync(table.slice(0, 30)), gzipSync(table.slice(30))])),
    ],
    ['a folder and capitals in its name', 'Shop North\\UNITS-2024 (1).CSV', table],
  ])('with %s', async (_, name, content) => {
    const { account } = await read(name, content);
    expect(account).toMatchObject({ table: 'units', read: 2, kept: 2, setAside: 0, refused: null });
    expect(
      (await keptRows(engine, 'units')).map(({ unit_id, axle_roles, duty }) => [unit_id, axle_roles, duty]),
    ).toEqual([
      ['007', 'steer;drive', 'linehaul'],
      ['008', 'trailer', null],
    ]);
  });

  it('leaving columns unused that no table has, and naming them', async () => {
    const { account } = await read('units.csv', 'colour,unit_id,,axle_roles,Trim level\nred,1,,steer,x\n');
    expect(account.unusedColumns).toEqual(['colour', '(column 3, without a header)', 'Trim level']);
    expect(counts(account)).toEqual([1, 1, 0]);
  });

  it('with three hundred columns', async () => {
    const extra = Array.from({ length: 298 }, (_, index) => `extra_${index}`);
    const { account } = await read(
      'units.csv',
      `${['unit_id', 'axle_roles', ...extra].join(',')}\n1,steer${',x'.repeat(298)}\n`,
    );
    expect(counts(account)).toEqual([1, 1, 0]);
    expect(account.unusedColumns).toHaveLength(298);
  });

  it('with the SHA-256 of its bytes', async () => {
    // FIPS 180-4, example of "abc", RFC 6234 section 8.5.
    const { account } = await read('units.csv', 'abc');
    expect(account.fingerprint).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
  });
});

describe('a file is refused whole', () => {
  const gz = new Uint8Array(gzipSync(`${table}${'009,steer,x\n'.repeat(5000)}`, { level: 0 }));
  it.each<[string, string, string | Uint8Array, RegExp]>([
    ['empty', 'units.csv', '', /is empty/],
    ['blank', 'units.csv', ' \n\n  \n', /is blank/],
    ['without a needed column', 'units.csv', 'unit_id,roles\n1,steer\n', /has no column axle_roles; .* unit_id, roles/],
    ['with a column twice', 'units.csv', 'unit_id,axle_roles,Unit_id\n1,steer,2\n', /has the column unit_id twice/],
    ['another table', 'services.csv', table, /has no column service_id, axle, side, date/],
    [
      'with an unclosed quote in its headers',
      'units.csv',
      '"unit_id,axle_roles\n1,steer\n',
      /quote in its headers|no column/,
    ],
    ['bytes of zero', 'units.csv', new Uint8Array(100), /zero/],
    ['noise', 'units.csv', Uint8Array.from({ length: 5000 }, (_, at) => (at * 7919 + 13) % 251), /zero|no column/],
    ['Parquet cut short', 'units.parquet', 'PAR1....', /damaged, cut short/],
    ['a workbook cut short', 'units.xlsx', 'PK\u0003\u0004....', /damaged, cut short/],
    ['a gzip cut short', 'units.csv.gz', gz.subarray(0, gz.length - 30), /damaged, cut short/],
    [
      'a gzip with a flipped bit',
      'units.csv.gz',
      gz.map((byte, at) => (at === 40_000 ? byte ^ 1 : byte)),
      /damaged, cut short/,
    ],
    ['a gzip in a gzip', 'units.csv.gz', new Uint8Array(gzipSync(gzipSync(table))), /packed twice/],
    ['one endless line', 'units.csv', 'x'.repeat(3_000_000), /no line end/],
  ])('%s', async (_, name, content, why) => {
    const { account } = await read(name, content);
    expect(account).toMatchObject({ read: 0, kept: 0, setAside: 0, refused: expect.stringMatching(why) as string });
    expect(account.fingerprint).toMatch(/^[0-9a-f]{64}$/);
    expect(await keptRows(engine, 'units')).toEqual([]);
    expect(await asideOf(engine)).toEqual([]);
  });

  it('whose name says no table, without being read', async () => {
    const { account } = await read('wheel-ends.csv', table);
    expect(account).toMatchObject({
      table: null,
      read: 0,
      refused: expect.stringContaining('goes by no table') as string,
    });
  });

  it('that cannot be opened, while the others are read', async () => {
    const gone = {
      name: 'readings.csv',
      size: 10,

      async *stream(): AsyncGenerator<Uint8Array> {
        await Promise.resolve();
        throw new Error('the file has gone');
      },
    };
    const report = await readRecords(engine, [gone, source('units.csv', table)]);
    expect(accountOf(report, 'readings.csv').refused).toMatch(/the file has gone/);
    expect(counts(accountOf(report, 'units.csv'))).toEqual([2, 2, 0]);
  });
});

describe('what stands beside the tables', () => {
  it('is passed over and named', async () => {
    const report = await readRecords(engine, [
      source('set/units.csv', table),
      source('set/notes.md', 'x'),
      source('set/.x.csv', 'x'),
    ]);
    expect(report.files.map(({ name }) => name)).toEqual(['set/units.csv']);
    expect(report.messages).toEqual(['Passed over, being no files of records: set/.x.csv, set/notes.md']);
    expect(report.name).toBe('set');
  });

  it('may say so if a file has headers and no rows', async () => {
    const { account, messages } = await read('units.csv', 'unit_id,axle_roles\n');
    expect(account).toMatchObject({ read: 0, refused: null });
    expect(messages).toEqual(['units.csv has headers and no rows']);
  });

  it('may hold a line too long for any row, at the cost of that line', async () => {
    const long = `${table}1,"${'x'.repeat(3_000_000)}",\n2,${'y'.repeat(3_000_000)},\n009,steer,\n`;
    const report = await readRecords(engine, [source('units.csv', long)]);
    expect(counts(accountOf(report, 'units.csv'))).toEqual([5, 3, 2]);
    const aside = await asideOf(engine);
    expect(aside.map(({ row, reason }) => [row, reason])).toEqual([
      [4, 'the line is too long for a row'],
      [5, 'the line is too long for a row'],
    ]);
    expect((await keptRows(engine, 'units')).map(({ line }) => line)).toEqual(['2', '3', '6']);
  });
});
