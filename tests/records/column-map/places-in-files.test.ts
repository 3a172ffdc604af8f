// Where in a file the rows of a column map stand: asked for once, kept in the map, and found there the next time.
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { deskOfColumns } from '../../../app/_state/desk-of-columns.ts';
import type { Engine } from '../../../lib/engine/engine.ts';
import { openNodeEngine } from '../../../lib/engine/node.ts';
import { columnMapsOf, readRecords, unmappedFiles, type RecordSource } from '../../../lib/records/index.ts';
import { bookOf, plainRow } from '../packing.ts';
import { accountOf, counts, keptRows, source } from '../sources.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine({ threads: 1 });
});
afterAll(() => engine.close());

const head = ['WO Line', 'Unit No.', 'Wheel Pos', 'Repair Date', 'Odometer (mi)', 'Parts Replaced'];
const job = (id: string, place = 'LF') => [id, '0412', place, '2021-03-02', '40000', 'wheel seal'];
const units = source('units.csv', 'unit_id,axle_roles\n0412,steer drive drive\n');
/** Of two sheets of records the first is read without being told; in the other the title looks like headers, too. */
const book = (name: string) =>
  source(
    name,
    bookOf({
      sheets: {
        Notes: plainRow('Ask the office'),
        'of 2023': plainRow(...head) + plainRow(...job('1')),
        'of 2024': [['Work', 'of', 'the', 'north', 'yard', 'all'], head, job('2'), job('3', 'RF')]
          .map((r) => plainRow(...r))
          .join(''),
      },
    }),
  );
const desk = async (...files: readonly RecordSource[]) => {
  const made = deskOfColumns((_, run) => run(new AbortController().signal));
  return { desk: made, asked: made.hold(await unmappedFiles([units, ...files])) };
};

describe('the place of rows', () => {
  it('can be chosen among the sheets and rows that are shown', async () => {
    const { desk: columns, asked } = await desk(book('services north.xlsx'));
    expect(asked.map(({ files }) => files)).toEqual([['services north.xlsx']]);
    const { sheets } = await columns.lookAtPlaces(1, 0);
    expect(sheets.map(({ name, rowCount, headerRow }) => [name, rowCount, headerRow])).toEqual([
      ['Notes', 1, 1],
      ['of 2023', 2, 1],
      ['of 2024', 4, 1],
    ]);
    const moved = await columns.takePlace(1, 0, { sheet: 'of 2024', headerRow: 2 });
    if (typeof moved === 'string') throw new Error(moved);
    expect(moved.behind).toBeNull();
    expect(moved.taken.headers).toEqual(head);
    expect(moved.taken.proposal.map.where).toEqual({ sheet: 'of 2024', headerRow: 2 });
    const tried = await columns.tryMap(1, 0, moved.taken.proposal.map, true);
    expect(tried.preview).toMatchObject({ rows: 2, setAside: 0 });
  });

  it('is refused with the reason where no rows stand there, and then is where it was', async () => {
    const { desk: columns, asked } = await desk(book('services north.xlsx'));
    expect(await columns.takePlace(1, 0, { sheet: 'of 2024', headerRow: 9 })).toBe(
      'has no row 9 that could hold headers',
    );
    expect(await columns.takePlace(1, 0, { sheet: 'of 2024', headerRow: 4 })).toBe('has no rows below these headers');
    const map = asked[0]!.proposal.map;
    expect((await columns.tryMap(1, 0, map, true)).preview).toMatchObject({ rows: 1, setAside: 0 });
  });

  it('is kept in the map, which reads the file there, and next month’s', async () => {
    const { desk: columns } = await desk(book('services north.xlsx'));
    const moved = await columns.takePlace(1, 0, { sheet: 'of 2024', headerRow: 2 });
    if (typeof moved === 'string') throw new Error(moved);
    const maps = columnMapsOf(JSON.stringify(moved.taken.proposal.map));
    const report = await readRecords(engine, [units, book('services south.xlsx')], { maps });
    expect(counts(accountOf(report, 'services south.xlsx'))).toEqual([2, 2, 0]);
    expect((await keptRows(engine, 'services')).map(({ service_id: id }) => id)).toEqual(['2', '3']);
  });

  it('of a text is a row of headers, and files that have other headers there are asked about by themselves', async () => {
    const text = (title: string, ...rows: readonly (readonly string[])[]) =>
      [title, head.join(','), ...rows.map((row) => row.join(','))].join('\n');
    const same = text('a,b,c,d,e,f', job('1'), job('2'));
    const files = [
      source('north 1.csv', same),
      source('north 2.csv', text('a,b,c,d,e,f', job('3'), job('4'))),
      source(
        'north 3.csv',
        ['a,b,c,d,e,f', 'Line,Unit No.,Wheel Pos,Repair Date,Odometer (mi),Parts', job('5').join(',')].join('\n'),
      ),
      source('fleet list.csv', 'Unit,Axle Config\n0412,6x4\n'),
    ];
    const { desk: columns, asked } = await desk(...files);
    const number = asked.find(({ headers }) => headers[0] === 'a')!.number;
    const moved = await columns.takePlace(1, number, { headerRow: 2 });
    if (typeof moved === 'string') throw new Error(moved);
    expect(moved.taken.files).toEqual(['north 1.csv', 'north 2.csv']);
    expect(moved.behind?.files).toEqual(['north 3.csv']);
    const back = await columns.takePlace(1, number, {});
    if (typeof back === 'string') throw new Error(back);
    expect([back.taken.headers[0], back.taken.proposal.map.where]).toEqual(['a', undefined]);
  });
});
