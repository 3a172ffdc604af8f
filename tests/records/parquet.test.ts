import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { DuckDBInstance } from '@duckdb/node-api';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { readRecords } from '../../lib/records/index.ts';
import type { RecordSource } from '../../lib/records/index.ts';
import { writtenFile } from './packing.ts';
import { accountOf, asideOf, counts, keptRows, source } from './sources.ts';

let engine: Engine;
let folder: string;
beforeAll(async () => {
  engine = await openNodeEngine({ threads: 1 });
  folder = mkdtempSync(join(tmpdir(), 'hubcause-parquet-'));
});
afterAll(async () => {
  rmSync(folder, { recursive: true });
  await engine.close();
});

/** A file of Parquet written by DuckDB, which shares no code with the reader. */
async function written(query: string, options = ''): Promise<Uint8Array> {
  const instance = await DuckDBInstance.create(':memory:');
  const connection = await instance.connect();
  const path = join(folder, 'x.parquet');
  await connection.run(`copy (${query}) to '${path}' (format parquet${options})`);
  connection.closeSync();
  instance.closeSync();
  return new Uint8Array(readFileSync(path));
}

async function read(content: Uint8Array, table: 'units' | 'services' | 'readings' = 'services') {
  const name = `${table}.parquet`;
  const report = await readRecords(engine, [source(name, content)]);
  const kept = await keptRows(engine, table);
  return { account: accountOf(report, name), messages: report.messages, kept, aside: await asideOf(engine) };
}

const services = `
  select 'a' as service_id, '007'::varchar as unit_id, 1::tinyint as axle, 'left' as side,
    date '2024-02-29' as date, 1000.5::decimal(12, 3) as miles, true as nut_backed_off,
    ['seal', 'gasket'] as replaced, 9007199254740993 as order_id, 0.1::float8 as end_play_in,
    {'by': 'x', 'at': {'shop': 7}} as work, 'it''s ü' as comment, 300::uinteger as inner_torque_ftlb
  union all select 'b', '007', 2, 'right', date '1999-12-31', null, false, [], null, null, null, null, null
  union all select 'c', '008', 99, 'left', date '2024-03-01', 1, null, null, -1, 0, {'by': null, 'at': null}, '', 0`;

describe('Parquet', () => {
  it.each(['uncompressed', 'snappy', 'gzip', 'zstd', 'brotli', 'lz4_raw'])('packed by %s is read', async (codec) => {
    const { account, kept, aside } = await read(await written(services, `, compression ${codec}`));
    expect(counts(account)).toEqual([3, 2, 1]);
    expect(account.unusedColumns).toEqual(['work.by', 'work.at.shop']);
    expect(kept).toMatchObject([
      {
        ...{ service_id: 'a', unit_id: '007', axle: '1', side: 'left', date: '2024-02-29', miles: '1000.5', line: '1' },
        ...{ nut_backed_off: 'yes', replaced: 'seal;gasket', order_id: '9007199254740993', end_play_in: '0.1' },
        ...{ comment: "it's ü", inner_torque_ftlb: '300.0' },
      },
      { service_id: 'b', date: '1999-12-31', miles: null, nut_backed_off: 'no', replaced: null, line: '2' },
    ]);
    expect(aside).toMatchObject([{ row: 3, column: 'axle', value: '99' }]);
    expect(aside[0]!.original).toBe('c,008,99,left,2024-03-01,1,,,-1,0,,,,0');
  });

  it.each(['timestamp_s', 'timestamp_ms', 'timestamp', 'timestamp_ns', 'timestamptz'])(
    'has moments of %s read as days',
    async (type) => {
      const bytes = await written(
        `select '1' as unit_id, '2024-02-29 23:59:59'::timestamp::${type} as date, 5 as miles`,
      );
      // Written with an offset, it is the day in UTC.
      expect((await read(bytes, 'readings')).kept).toMatchObject([{ date: '2024-02-29', miles: '5.0' }]);
    },
  );

  it('with words kept once, and many blocks of rows, keeps every row in its place', async () => {
    const bytes = await written(
      `select (i % 50)::varchar as unit_id, date '2020-01-01' + (i % 700)::integer as date, i as miles,
        case i % 3 when 0 then 'odometer' when 1 then 'telematics' end as source from range(300000) t(i)`,
      ', row_group_size 61440',
    );
    const { account, kept } = await read(bytes, 'readings');
    expect(counts(account)).toEqual([300_000, 300_000, 0]);
    const byLine = new Map(kept.map((row) => [Number(row['line']), row]));
    for (const at of [0, 61_439, 61_440, 299_999]) {
      const date = new Date(Date.UTC(2020, 0, 1 + (at % 700))).toISOString().slice(0, 10);
      const said = ['odometer', 'telematics', null][at % 3];
      expect(byLine.get(at + 1)).toMatchObject({ unit_id: String(at % 50), date, miles: `${at}.0`, source: said });
    }
  });

  it('is read in parts where its source gives them, and whole inside gzip', async () => {
    const bytes = await written(services);
    const read: [number, number][] = [];
    const parted: RecordSource = {
      ...source('services.parquet', bytes),
      part: (start, end) => {
        read.push([start, end]);
        return new Blob([bytes.slice(start, end)]).stream();
      },
    };
    const report = await readRecords(engine, [parted]);
    expect(counts(accountOf(report, 'services.parquet'))).toEqual([3, 2, 1]);
    expect(read.length).toBeGreaterThan(10);
    const packed = await readRecords(engine, [source('services.parquet.gz', new Uint8Array(gzipSync(bytes)))]);
    expect(counts(accountOf(packed, 'services.parquet.gz'))).toEqual([3, 2, 1]);
  });

  it('has a kind of column that is not read set aside only where it is used', async () => {
    const units = `select '1' as unit_id, 'steer' as axle_roles, interval 1 day`;
    const unused = await read(await written(`${units} as service_every`), 'units');
    expect(counts(unused.account)).toEqual([1, 1, 0]);
    expect(unused.messages).toEqual(['units.parquet has columns of a kind that is not read: service_every']);
    const used = await read(await written(`${units} as duty`), 'units');
    expect(counts(used.account)).toEqual([1, 0, 1]);
    expect(used.aside).toMatchObject([{ column: 'duty', reason: 'a value of the kind INTERVAL, which is not read' }]);
  });

  it('of a third program is read', async () => {
    const { account, kept } = await read(writtenFile('units.parquet'), 'units');
    expect(counts(account)).toEqual([2, 2, 0]);
    expect(kept).toMatchObject([
      { unit_id: '007', axle_roles: 'steer;drive', duty: null },
      { unit_id: '008', axle_roles: 'trailer', duty: 'é' },
    ]);
  });

  it('cut short anywhere is refused whole', async () => {
    const bytes = await written(services);
    for (let length = 4; length < bytes.length; length += 37) {
      const { account } = await read(bytes.subarray(0, length));
      expect(account.refused, `after ${length} of ${bytes.length} bytes`).toMatch(/is damaged, cut short/);
      expect(account.read).toBe(0);
    }
  });

  it('never loses a row where bytes are changed', async () => {
    const bytes = await written(services, ', compression uncompressed');
    for (let at = 5; at < bytes.length; at += 23) {
      const changed = bytes.slice();
      changed[at]! ^= 0x55;
      const { account } = await read(changed);
      expect(account.read).toBe(account.kept + account.setAside);
      if (account.refused === null) expect(account.read, `byte ${at}`).toBe(3);
    }
  });

  it('of another table is refused, naming what is missing', async () => {
    const { account } = await read(await written('select 1 as a, {b: 2} as c'), 'units');
    expect(account.refused).toMatch(/has no column unit_id, axle_roles; .* found are a, c.b$/);
  });
});
