import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { numberColumn, textColumn, type Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { readRecords, rowsAsWritten, type RecordSource } from '../../lib/records/index.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

const source = (name: string, bytes: Uint8Array | string): RecordSource & { readonly taken: () => number } => {
  const all = typeof bytes === 'string' ? new TextEncoder().encode(bytes) : bytes;
  let taken = 0;
  async function* stream() {
    for (let at = 0; at < all.length; at += 65_536) {
      taken += Math.min(65_536, all.length - at);
      yield await Promise.resolve(all.slice(at, at + 65_536));
    }
  }
  return { name, size: all.length, stream, taken: () => taken };
};

const services = [
  'service_id,unit_id,axle,side,date,miles,replaced,comment',
  's1,007,1,left,2021-03-01,50000,seal,',
  's2,007,1,right,2021-03-01, 50000 ,seal,"two, in all',
  'over two lines"',
  's3,007,1,middle,2021-03-01,50000,seal,set aside',
  's4,007,1,left,2022-03-01,90000,seal,last',
].join('\n');
const failures = 'failure_id;unit_id;axle;side;date;miles;mode\nf1;007;1;left;2021-09-01;70000;seal-inner\n';

test('every row kept is found again as it was written, whatever it was packed in', async () => {
  const files = [source('north/services.csv', services), source('failures.csv.gz', gzipSync(failures))];
  await readRecords(engine, files);
  const kept = await engine.query({
    text: `select f.name, s.service_id as id, cast(s.line as double) as line, 'services' as t from services s join files f using (file_id)
      union all select f.name, failure_id, cast(x.line as double), 'failures' from failures x join files f using (file_id) order by 2`,
    values: [],
  });
  const wanted = textColumn(kept, 'name').map((file, row) => ({
    file: file ?? '',
    table: textColumn(kept, 't')[row] as 'services',
    line: numberColumn(kept, 'line')[row] ?? 0,
  }));
  const rows = await rowsAsWritten(files, wanted);
  expect(rows.map(({ written }) => written)).toEqual([
    'f1;007;1;left;2021-09-01;70000;seal-inner',
    's1,007,1,left,2021-03-01,50000,seal,',
    's2,007,1,right,2021-03-01, 50000 ,seal,"two, in all\nover two lines"',
    's4,007,1,left,2022-03-01,90000,seal,last',
  ]);
  expect(rows[0]?.headers).toEqual(['failure_id', 'unit_id', 'axle', 'side', 'date', 'miles', 'mode']);
});

test('a file is read no further than its last line wanted', async () => {
  const line = 's,007,1,left,2021-03-01,50000,seal,something\n';
  const long = source(
    'services.csv',
    `service_id,unit_id,axle,side,date,miles,replaced,comment\n${line.repeat(200_000)}`,
  );
  const [row] = await rowsAsWritten([long], [{ file: 'services.csv', table: 'services', line: 3 }]);
  expect(row?.written).toBe(line.trim());
  expect(long.taken()).toBeLessThan(long.size / 4);
});

test('headers of its own are shown with the row; what is not to be had is said to be so', async () => {
  const own = source('jobs.csv', 'WO,Truck\n1,007\n2,008\n');
  const rows = await rowsAsWritten(
    [own],
    [
      { file: 'jobs.csv', table: 'services', line: 3 },
      { file: 'jobs.csv', table: 'services', line: 9 },
      { file: 'gone.csv', table: 'failures', line: 2 },
    ],
  );
  expect(rows.map(({ written }) => written)).toEqual(['2,008', null, null]);
  expect(rows[0]?.headers).toEqual(['WO', 'Truck']);
});

test('an aborted reading says so', async () => {
  const stopped = AbortSignal.abort(new Error('left'));
  await expect(
    rowsAsWritten([source('services.csv', services)], [{ file: 'services.csv', table: 'services', line: 2 }], {
      signal: stopped,
    }),
  ).rejects.toThrow('left');
});
