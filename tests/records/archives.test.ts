import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { readRecords } from '../../lib/records/index.ts';
import { zipFile } from '../../data/demo/messy/zip-file.ts';
import { writtenFile } from './packing.ts';
import { accountOf, asideOf, counts, keptRows, source } from './sources.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine({ threads: 1 });
});
afterAll(() => engine.close());

const units = 'unit_id,axle_roles\n007,steer drive\n008,trailer\n';

describe('an archive', () => {
  it('gives each file inside as a source of its own', async () => {
    const report = await readRecords(engine, [source('shop.zip', writtenFile('shop.zip'))]);
    expect(report.files.map((file) => [file.name, file.table, ...counts(file)])).toEqual([
      ['shop.zip/book.xlsx/services', 'services', 3, 2, 1],
      ['shop.zip/book.xlsx/units', 'units', 1, 1, 0],
      ['shop.zip/north/services.csv', 'services', 2, 0, 2],
      ['shop.zip/north/units.csv', 'units', 2, 1, 1],
      ['shop.zip/north/notes.txt', null, 0, 0, 0],
    ]);
    // The same ids stand in the workbook, which comes first.
    expect((await asideOf(engine)).map(({ file, row, column }) => [file, row, column])).toEqual([
      ['shop.zip/book.xlsx/services', 3, 'miles'],
      ['shop.zip/north/services.csv', 2, 'service_id'],
      ['shop.zip/north/services.csv', 3, 'axle'],
      ['shop.zip/north/units.csv', 2, 'unit_id'],
    ]);
  });

  it.each(['stored.zip', 'piped.zip'])('is read as other programs write it: %s', async (name) => {
    const report = await readRecords(engine, [source('units.zip', writtenFile(name))]);
    expect(report.files.map((file) => [file.table, ...counts(file)])).toEqual([['units', 2, 2, 0]]);
    expect((await keptRows(engine, 'units')).map((row) => row['unit_id'])).toEqual(['007', '008']);
  });

  it('may say which table its one file is for, and hold a record set with its own words', async () => {
    const report = await readRecords(engine, [
      source('north/units.zip', zipFile([{ name: 'export.csv', content: units }])),
      source(
        'all.zip',
        zipFile([
          { name: 'record-set.json', content: '{"name":"Two shops"}' },
          { name: 'units-south.csv.gz', content: gzipSync('unit_id,axle_roles\n9,steer\n') },
        ]),
      ),
    ]);
    expect(report.name).toBe('Two shops');
    expect(report.files.map((file) => [file.name, file.table, ...counts(file)])).toEqual([
      ['all.zip/units-south.csv.gz', 'units', 1, 1, 0],
      ['north/units.zip/export.csv', 'units', 2, 2, 0],
    ]);
  });

  it.each(['../units.csv', '/units.csv', 'a/../../units.csv', './units.csv'])(
    'takes a path as a name and no more, wherever it leads: %s',
    async (name) => {
      const bytes = zipFile([
        { name, content: units },
        { name: 'units-2.csv', content: 'unit_id,axle_roles\n9,steer\n' },
      ]);
      const report = await readRecords(engine, [source('x.zip', bytes)]);
      expect(counts(accountOf(report, `x.zip/${name}`))).toEqual([2, 2, 0]);
      expect(counts(accountOf(report, 'x.zip/units-2.csv'))).toEqual([1, 1, 0]);
    },
  );

  it('gives nothing of a file whose sum is wrong, and the others', async () => {
    const bytes = zipFile([
      { name: 'units.csv', content: units },
      { name: 'units-2.csv', content: 'unit_id,axle_roles\n9,steer\n' },
    ]);
    // The sum of the first file in the central directory, which begins with PK 1 2; its sum stands 16 bytes on.
    const at = Buffer.from(bytes).indexOf('PK\u0001\u0002', 0, 'latin1') + 16;
    bytes[at]! ^= 1;
    const report = await readRecords(engine, [source('x.zip', bytes)]);
    expect(accountOf(report, 'x.zip/units.csv').refused).toMatch(/is damaged, cut short/);
    expect(counts(accountOf(report, 'x.zip/units-2.csv'))).toEqual([1, 1, 0]);
    expect((await keptRows(engine, 'units')).map((row) => row['unit_id'])).toEqual(['9']);
  });
});

describe('an archive is refused', () => {
  const refusals = async (name: string, bytes: Uint8Array) => {
    const report = await readRecords(engine, [source(name, bytes)]);
    return report.files.map((file) => [file.name, file.refused]);
  };

  it('behind a password', async () => {
    expect(await refusals('a.zip', writtenFile('locked.zip'))).toEqual([
      ['a.zip/units.csv', 'is locked with a password; take the password off'],
    ]);
  });

  it('where a file would unpack to hundreds of times its size', async () => {
    const said = zipFile([{ name: 'units.csv', content: units }], { size: 4_000_000_000 });
    const [[name, why] = []] = await refusals('a.zip', said);
    expect(name).toBe('a.zip/units.csv');
    expect(why).toMatch(/^would unpack to \d+ times its size, as no table does/);
  });

  it('where a gzip would have to be held and unpacks to hundreds of times its size', async () => {
    const zeros = Buffer.alloc(2 ** 27 + 1);
    zeros.write('PAR1');
    const [[, why] = []] = await refusals('units.parquet.gz', new Uint8Array(gzipSync(zeros)));
    expect(why).toMatch(/more than 134217728 bytes, which is more than can be held at once/);
  });

  it('where a file is longer than was said', async () => {
    const said = zipFile([{ name: 'units.csv', content: units + '9,steer\n'.repeat(100_000) }], { size: 30 });
    const [[, why] = []] = await refusals('a.zip', said);
    expect(why).toMatch(/is damaged, cut short/);
    expect(await keptRows(engine, 'units')).toEqual([]);
  });

  it.each([
    ['cut short', zipFile([{ name: 'units.csv', content: units }]).subarray(0, 60), /is damaged, cut short/],
    ['empty', zipFile([]), /is an archive with no files in it/],
  ])('%s', async (_, bytes, why) => {
    const [[name, refused] = []] = await refusals('a.zip', bytes);
    expect(name).toBe('a.zip');
    expect(refused).toMatch(why);
  });

  it('in an archive, and in a gzip', async () => {
    const inner = zipFile([{ name: 'units.csv', content: units }]);
    const nested = await refusals('a.zip', zipFile([{ name: 'units.zip', content: inner }]));
    expect(nested).toEqual([['a.zip/units.zip', expect.stringMatching(/^is an archive in an archive; what can be/)]]);
    const [[, packed] = []] = await refusals('units.zip.gz', new Uint8Array(gzipSync(inner)));
    expect(packed).toMatch(/^is an archive in an archive; what can be read/);
  });
});
