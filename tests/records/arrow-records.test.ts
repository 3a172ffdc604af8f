import {
  DateDay,
  DateMillisecond,
  Dictionary,
  Field,
  Int8,
  List,
  Struct,
  Table,
  TimestampMillisecond,
  Utf8,
  tableToIPC,
  vectorFromArray,
} from 'apache-arrow';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { readRecords, type RecordSource } from '../../lib/records/index.ts';
import type { RowSink } from '../../lib/records/row-sink.ts';
import { readSource } from '../../lib/records/source-rows.ts';
import { writtenFile } from './packing.ts';
import { accountOf, asideOf, counts, keptRows, source } from './sources.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine({ threads: 1 });
});
afterAll(() => engine.close());

/** How many rows a file gives, whatever is in them. */
async function rowsIn(file: RecordSource): Promise<{ outcome: string | null; rows: number }> {
  let rows = 0;
  const count = () => {
    rows++;
  };
  const sink: RowSink = { width: 1, row: count, broken: count, full: false, send: done, finish: done };
  const { outcome } = await readSource(file, {
    openRows: () => Promise.resolve(sink),
    choice: {},
    say: () => undefined,
  });
  return { outcome, rows };
}
const done = () => Promise.resolve();

const day = Date.UTC(2024, 1, 29);
const list = new List(new Field('item', new Utf8(), true));
const services = new Table({
  service_id: vectorFromArray(['a', 'b', 'ç'], new Utf8()),
  unit_id: vectorFromArray(['007', '007', '8'], new Dictionary(new Utf8(), new Int8())),
  axle: vectorFromArray([1n, 2n, null]),
  side: vectorFromArray(['left', 'RIGHT', 'left'], new Utf8()),
  date: vectorFromArray([day, day, day], new DateDay()),
  miles: vectorFromArray([1000.5, null, 3]),
  nut_backed_off: vectorFromArray([true, false, null]),
  replaced: vectorFromArray([['seal', 'gasket'], null, ['seal']], list),
  'work "kind"': vectorFromArray(['x', 'y,z', null], new Utf8()),
});

describe.each(['file', 'stream'] as const)('an Arrow %s', (kind) => {
  it('is read by the rules of a CSV, its rows counted from 1', async () => {
    const bytes = tableToIPC(services, kind);
    for (const pieceBytes of [100, 1 << 20]) {
      const report = await readRecords(engine, [source('services.arrow', bytes, pieceBytes)]);
      const account = accountOf(report, 'services.arrow');
      expect(counts(account)).toEqual([3, 2, 1]);
      expect(account.unusedColumns).toEqual(['work "kind"']);
      const row = { unit_id: '007', date: '2024-02-29', order_id: null };
      expect(await keptRows(engine, 'services')).toMatchObject([
        {
          ...row,
          service_id: 'a',
          axle: '1',
          side: 'left',
          miles: '1000.5',
          nut_backed_off: 'yes',
          replaced: 'seal;gasket',
          line: '1',
        },
        {
          ...row,
          service_id: 'b',
          axle: '2',
          side: 'right',
          miles: null,
          nut_backed_off: 'no',
          replaced: null,
          line: '2',
        },
      ]);
      expect(await asideOf(engine)).toEqual([
        {
          file: 'services.arrow',
          row: 3,
          column: 'axle',
          value: '',
          reason: 'blank where a value is needed',
          accepted: 'a whole number from 1 to 20, with a decimal point and no thousands separator',
          original: 'ç,8,,left,2024-02-29,3,,seal,',
        },
      ]);
    }
  });

  it('of several batches and moments of time is read', async () => {
    const part = (id: string) =>
      new Table({
        unit_id: vectorFromArray([id], new Utf8()),
        date: vectorFromArray([day + 3_600_000], new TimestampMillisecond()),
        miles: vectorFromArray([5]),
      });
    const report = await readRecords(engine, [
      source('readings.feather', tableToIPC(part('1').concat(part('2')), kind)),
    ]);
    expect(counts(accountOf(report, 'readings.feather'))).toEqual([2, 2, 0]);
    expect(await keptRows(engine, 'readings')).toMatchObject([
      { unit_id: '1', date: '2024-02-29', line: '1' },
      { unit_id: '2', date: '2024-02-29', line: '2' },
    ]);
  });

  it('cut short anywhere, even between two batches, is refused whole', async () => {
    const half = new Table({
      unit_id: vectorFromArray(['1'], new Utf8()),
      date: vectorFromArray([day], new DateDay()),
      miles: vectorFromArray([5]),
    });
    const bytes = tableToIPC(half.concat(half), kind);
    for (let length = 16; length < bytes.length; length += 8) {
      const report = await readRecords(engine, [source('readings.arrow', bytes.subarray(0, length))]);
      const account = accountOf(report, 'readings.arrow');
      expect(account.refused, `after ${length} of ${bytes.length} bytes`).not.toBeNull();
      expect(account.read).toBe(0);
    }
  });

  it('is refused where its lists say that they hold millions of values', async () => {
    const bytes = tableToIPC(services, kind).slice();
    // Where the lists of `replaced` begin and end: two words, none, one.
    const at = Buffer.from(bytes).indexOf(Buffer.from(Int32Array.of(0, 2, 2, 3).buffer));
    new DataView(bytes.buffer).setInt32(at + 12, 0x7fff_ffff, true);
    const report = await readRecords(engine, [source('services.arrow', bytes)]);
    expect(accountOf(report, 'services.arrow').refused).toMatch(/its lists have more values than it can hold$/);
  });

  it('has only the rows set aside in which a day or a number cannot be', async () => {
    const bytes = tableToIPC(
      new Table({
        unit_id: vectorFromArray([9007199254740993n, 2n, 3n]),
        date: vectorFromArray([day, 9e15, day], new DateMillisecond()),
        miles: vectorFromArray([5, 6, Infinity]),
      }),
      kind,
    );
    const report = await readRecords(engine, [source('readings.arrow', bytes)]);
    expect(counts(accountOf(report, 'readings.arrow'))).toEqual([3, 1, 2]);
    expect((await keptRows(engine, 'readings'))[0]).toMatchObject({ unit_id: '9007199254740993', miles: '5.0' });
    expect(await asideOf(engine)).toMatchObject([
      { row: 2, column: 'date', value: '9000000000000000', original: '2,9000000000000000,6' },
      { row: 3, column: 'miles', value: 'Infinity', reason: 'not a number' },
    ]);
  });

  it('has a kind of column that is not read set aside only where it is used', async () => {
    const inner = new Struct([new Field('x', new Utf8(), true)]);
    const units = (name: string) =>
      tableToIPC(
        new Table({
          unit_id: vectorFromArray(['1'], new Utf8()),
          axle_roles: vectorFromArray(['steer'], new Utf8()),
          [name]: vectorFromArray([{ x: 'y' }], inner),
        }),
        kind,
      );
    const unused = await readRecords(engine, [source('units.arrow', units('inner'))]);
    expect(counts(accountOf(unused, 'units.arrow'))).toEqual([1, 1, 0]);
    expect(unused.messages).toEqual(['units.arrow has columns of a kind that is not read: inner']);
    const used = await readRecords(engine, [source('units.arrow', units('duty'))]);
    expect(counts(accountOf(used, 'units.arrow'))).toEqual([1, 0, 1]);
    expect(await asideOf(engine)).toMatchObject([
      { column: 'duty', reason: expect.stringMatching(/^a value of the kind Struct.*, which is not read$/) as string },
    ]);
  });

  it('of another table is refused, naming what is missing', async () => {
    const bytes = tableToIPC(new Table({ a: vectorFromArray([1]) }), kind);
    const report = await readRecords(engine, [source('units.arrow', bytes)]);
    expect(report.files[0]!.refused).toMatch(/has no column unit_id, axle_roles; .* found are a$/);
  });
});

describe('an Arrow file of another program', () => {
  it('is read, in parts where its source gives them', async () => {
    const bytes = writtenFile('readings.arrow');
    let parts = 0;
    const part = (start: number, end: number) => {
      parts++;
      return new Blob([bytes.slice(start, end)]).stream();
    };
    const report = await readRecords(engine, [{ ...source('readings.arrow', bytes), part }]);
    expect(counts(accountOf(report, 'readings.arrow'))).toEqual([2, 1, 1]);
    expect(await keptRows(engine, 'readings')).toMatchObject([{ unit_id: '7', date: '2024-02-29', miles: '1000.5' }]);
    expect(await asideOf(engine)).toMatchObject([{ row: 2, column: 'miles', original: '8,,1999-12-31' }]);
    expect(parts).toBeGreaterThan(3);
  });

  it('ends, and loses no row, whatever numbers in it are made absurd', async () => {
    const bytes = writtenFile('readings.arrow');
    for (let at = 8; at + 4 < bytes.length - 6; at += 4) {
      for (const absurd of [0x7fffffff, 0x00ffffff, 0]) {
        const changed = bytes.slice();
        new DataView(changed.buffer).setInt32(at, absurd, true);
        const { outcome, rows } = await rowsIn(source('readings.arrow', changed));
        expect(rows, `${absurd} at ${at}`).toBeLessThanOrEqual(bytes.length * 8);
        // The reader alone, as that takes a thirtieth of the time; what it gives is counted by the tables.
        if (at % 64 !== 0) continue;
        const report = await readRecords(engine, [source('readings.arrow', changed)]);
        const { read, kept, setAside, refused } = accountOf(report, 'readings.arrow');
        expect(read, `${absurd} at ${at}`).toBe(kept + setAside);
        expect([0, rows], `${absurd} at ${at}`).toContain(read);
        if (outcome !== null) expect(refused, `${absurd} at ${at}`).toBe(outcome);
      }
    }
  });

  it.each([
    ['readings-lz4.arrow', /^is compressed inside; write it without compression, or as Parquet/],
    ['units-view.arrow', /^has a column of a newer kind of Arrow than is read here; write it as Parquet/],
  ])('is refused where it is of a kind that is not read: %s', async (name, why) => {
    const report = await readRecords(engine, [source(name, writtenFile(name))]);
    expect(report.files[0]).toMatchObject({ read: 0, refused: expect.stringMatching(why) as string });
    expect(await keptRows(engine, name.startsWith('units') ? 'units' : 'readings')).toEqual([]);
  });
});
