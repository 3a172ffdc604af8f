// Rows said twice, orders opened again and units handed on, worked by hand from sections 1 and 2 of the record contract.
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Engine } from '../../lib/engine/engine.ts';
import { openNodeEngine } from '../../lib/engine/node.ts';
import { sql } from '../../lib/engine/statement.ts';
import { textColumn } from '../../lib/engine/engine.ts';
import { readRecords } from '../../lib/records/index.ts';
import { accountOf, asideOf, counts, source } from './sources.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine();
});
afterAll(() => engine.close());

const head = 'service_id,order_id,unit_id,axle,side,date,miles,shop,reason,replaced,comment';
const csv = (...rows: readonly string[]) => [head, ...rows, ''].join('\n');
const idsOf = async (table: string, id: string) =>
  textColumn(await engine.query({ text: `select "${id}" as id from "${table}" order by 1`, values: [] }), 'id');
async function read(files: Readonly<Record<string, string>>, choices?: object) {
  const own = choices ? [source('record-set.json', JSON.stringify({ choices }))] : [];
  const report = await readRecords(engine, [
    ...Object.entries(files).map(([name, text]) => source(name, text)),
    ...own,
  ]);
  return { report, aside: await asideOf(engine), kept: await idsOf('services', 'service_id') };
}

const said = 's1,w1,007,1,left,2021-03-04,40000,North,planned,seal;gasket,';
const again = 'x9,k7,007,1,left,2021-03-04,40000,North,planned,seal;gasket,';

describe('the same under another id', () => {
  it('is kept once, and the other set aside with what stood in its file', async () => {
    const { report, aside, kept } = await read({
      'services-a.csv': csv(said),
      'services-b.csv': csv('s2,,008,1,left,2021-03-04,,,,,', again),
    });
    expect(kept).toEqual(['s1', 's2']);
    expect(aside).toEqual([
      {
        ...{ file: 'services-b.csv', row: 3, column: 'service_id', value: 'x9', original: again },
        reason: 'says the same as services-a.csv, row 2, under another id',
        accepted: 'a row that says what no other row says',
      },
    ]);
    expect(counts(accountOf(report, 'services-b.csv'))).toEqual([2, 1, 1]);
  });

  it('is found whatever columns and order of columns the files have', async () => {
    const other =
      'side,axle,unit_id,date,service_id,replaced,reason,shop,miles\nleft,1,007,2021-03-04,x9,gasket;seal,planned,North,40000\n';
    // A list is a set of words, yet stands as written: in another order it is not the same text.
    expect((await read({ 'services-a.csv': csv(said), 'services-b.csv': other })).kept).toEqual(['s1', 'x9']);
    expect(
      (await read({ 'services-a.csv': csv(said), 'services-b.csv': other.replace('gasket;seal', 'seal;gasket') })).kept,
    ).toEqual(['s1']);
  });

  it.each([
    ['another side', again.replace('left', 'right')],
    ['another day', again.replace('03-04', '03-05')],
    ['other miles', again.replace('40000', '40001')],
    ['another part', again.replace('seal;gasket', 'seal')],
  ])('is not what says %s', async (_, row) => {
    expect((await read({ 'services.csv': csv(said, row) })).kept).toEqual(['s1', 'x9']);
  });

  it('is not what says nothing beyond where and when', async () => {
    expect(
      (await read({ 'services.csv': csv('s1,,007,1,left,2021-03-04,,,,,', 's2,,007,1,left,2021-03-04,,,,,') })).kept,
    ).toEqual(['s1', 's2']);
  });

  it('is kept where it is chosen so', async () => {
    expect((await read({ 'services.csv': csv(said, again) }, { duplicates: { samePayload: false } })).kept).toEqual([
      's1',
      'x9',
    ]);
  });

  it('leads links to it on, and is found among failures and inspections', async () => {
    const failures =
      'failure_id,unit_id,axle,side,date,mode,repair_service_id\nf1,007,1,left,2021-03-01,seal-inner,x9\nf2,007,1,left,2021-03-01,seal-inner,s1\n';
    const inspections =
      'inspection_id,unit_id,axle,side,date,checked,leak\ni1,007,1,left,2021-01-01,yes,0\ni2,007,1,left,2021-01-01,yes,0\n';
    await read({ 'services.csv': csv(said, again), 'failures.csv': failures, 'inspections.csv': inspections });
    expect(await idsOf('failures', 'failure_id')).toEqual(['f1']);
    expect(await idsOf('inspections', 'inspection_id')).toEqual(['i1']);
    const links = await engine.query(sql`select id || ' ' || kept_id as link from duplicate_ids order by 1`);
    expect(textColumn(links, 'link')).toEqual(['f2 f1', 'i2 i1', 'x9 s1']);
  });
});

describe('an order opened again', () => {
  const reopened = 's2,w1,007,1,left,2021-04-20,40000,North,planned,seal;gasket,';
  it('counts on its first date, the work being done then', async () => {
    const { kept, aside } = await read({ 'services.csv': csv(reopened, said) });
    expect(kept).toEqual(['s1']);
    expect(aside).toMatchObject([
      {
        row: 2,
        column: 'date',
        value: '2021-04-20',
        reason: 'an order opened again: says the same as services.csv, row 3, of 2021-03-04',
      },
    ]);
  });

  it('counts on its first date under the very same id, too, whichever comes first in the file', async () => {
    const { report, aside } = await read({ 'services.csv': csv(reopened.replace('s2', 's1'), said) });
    expect(counts(accountOf(report, 'services.csv'))).toEqual([2, 1, 1]);
    expect(aside).toMatchObject([{ row: 2, value: 's1', original: reopened.replace('s2', 's1') }]);
  });

  it('is the same whatever remark it bears; the first day counts, and of one day the row with a remark', async () => {
    const remarked = `${reopened}reopened to bill the core`;
    const { kept, aside } = await read({ 'services.csv': csv(said, remarked) });
    expect(kept).toEqual(['s1']);
    expect(aside).toMatchObject([
      {
        ...{ row: 3, column: 'date', value: '2021-04-20', original: remarked },
        reason: 'an order opened again: says the same as services.csv, row 2, of 2021-03-04, but for the comment',
      },
    ]);
    const sameDay = 's0,w1,007,1,left,2021-03-04,40000,North,planned,seal;gasket,';
    const filled = await read({ 'services.csv': csv(sameDay, `${said}seal lip torn`) });
    expect(filled.kept).toEqual(['s1']);
    expect(filled.aside).toMatchObject([{ row: 2, original: sameDay }]);
  });

  it('is another job of the same order where anything but the remark differs', async () => {
    const other = `${reopened.replace('seal;gasket', 'seal')}again`;
    expect((await read({ 'services.csv': csv(said, other) })).kept).toEqual(['s1', 's2']);
  });

  it('is told apart from rows said twice, and both may be asked for in place of what the record set says', async () => {
    const files = [source('services.csv', csv(said, again, reopened))];
    await readRecords(engine, files);
    const rules = await engine.query(sql`select rule || ' ' || id as found from duplicate_ids order by 1`);
    expect(textColumn(rules, 'found')).toEqual(['reopenedOrders s2', 'samePayload x9']);
    await readRecords(engine, files, { duplicates: { samePayload: false, reopenedOrders: true } });
    expect(await idsOf('services', 'service_id')).toEqual(['s1', 'x9']);
    await readRecords(engine, files, { duplicates: { samePayload: false, reopenedOrders: false } });
    expect(await idsOf('services', 'service_id')).toEqual(['s1', 's2', 'x9']);
  });

  it('without miles is the same order only within ninety days', async () => {
    const blank = (id: string, date: string) => `${id},w1,007,1,left,${date},,North,planned,seal,`;
    expect((await read({ 'services.csv': csv(blank('s1', '2021-01-01'), blank('s2', '2021-04-01')) })).kept).toEqual([
      's1',
    ]);
    expect((await read({ 'services.csv': csv(blank('s1', '2021-01-01'), blank('s2', '2021-04-02')) })).kept).toEqual([
      's1',
      's2',
    ]);
  });

  it('is kept where it is chosen so, and another order is another job', async () => {
    expect(
      (await read({ 'services.csv': csv(said, reopened) }, { duplicates: { reopenedOrders: false } })).kept,
    ).toEqual(['s1', 's2']);
    expect((await read({ 'services.csv': csv(said, reopened.replace('w1', 'w2')) })).kept).toEqual(['s1', 's2']);
  });
});

describe('a repair date beside a closing date', () => {
  it('is the one that counts; the other column is named as not used', async () => {
    const text = 'service_id,unit_id,axle,side,date,closed_date,replaced\ns1,007,1,left,2021-03-04,2021-05-30,seal\n';
    const { report } = await read({ 'services.csv': text });
    expect(accountOf(report, 'services.csv').unusedColumns).toEqual(['closed_date']);
    const dates = await engine.query(sql`select cast(date as varchar) as date from services`);
    expect(textColumn(dates, 'date')).toEqual(['2021-03-04']);
  });
});

describe('a unit listed by two shops', () => {
  const units = (...rows: readonly string[]) =>
    ['unit_id,axle_roles,in_service_date,out_date,out_reason,home_shop', ...rows, ''].join('\n');
  const north = units('007,steer;drive,2018-01-01,2021-06-01,transferred,North');
  const south = units('007,steer;drive,2021-06-01,,,South');
  it('keeps both rows where the first says that it was handed on', async () => {
    const { report } = await read({ 'units-north.csv': north, 'units-south.csv': south });
    expect(counts(accountOf(report, 'units-south.csv'))).toEqual([1, 1, 0]);
  });
  it('keeps one row where none says so', async () => {
    const { report } = await read({
      'units-north.csv': north.replace('transferred', 'sold'),
      'units-south.csv': south,
    });
    expect(counts(accountOf(report, 'units-south.csv'))).toEqual([1, 0, 1]);
  });
});

describe('any rows', () => {
  const row = fc
    .record({
      unit: fc.constantFrom('1', '2'),
      day: fc.integer({ min: 1, max: 3 }),
      order: fc.constantFrom('', 'w1'),
      miles: fc.constantFrom('', '100'),
      part: fc.constantFrom('', 'seal'),
    })
    .map(({ unit, day, order, miles, part }) => `${order},${unit},1,left,2021-01-0${day},${miles},,,${part},`);
  it('keep the same ones in whatever order they come and however they are parted into files, each row once', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(row, { minLength: 1, maxLength: 14 }), fc.nat(14), async (list, cut) => {
        const rows = list.map((text, at) => `s${String(at).padStart(2, '0')},${text}`);
        const whole = await read({ 'services.csv': csv(...rows) });
        const parted = await read({
          'services-1.csv': csv(...rows.slice(cut).reverse()),
          'services-2.csv': csv(...rows.slice(0, cut).reverse()),
        });
        expect(parted.kept).toEqual(whole.kept);
        for (const { report, kept, aside } of [whole, parted]) {
          expect(kept.length + aside.length).toBe(rows.length);
          for (const file of report.files) expect(file.read).toBe(file.kept + file.setAside);
        }
      }),
      { numRuns: 25 },
    );
  }, 300_000);
});
