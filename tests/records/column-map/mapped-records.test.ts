import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { columnMapSchema, type ColumnMap } from '../../../shared/column-map.ts';
import type { Engine } from '../../../lib/engine/engine.ts';
import { openNodeEngine } from '../../../lib/engine/node.ts';
import { readRecords } from '../../../lib/records/index.ts';
import { accountOf, asideOf, counts, keptRows, source } from '../sources.ts';

let engine: Engine;
beforeAll(async () => {
  engine = await openNodeEngine({ threads: 1 });
});
afterAll(() => engine.close());

const units = source('units.csv', 'unit_id,axle_roles,former_ids\n7,steer drive drive,0007\n8,trailer trailer,\n');

const plain = {
  version: 1,
  source: 'north',
  recognised: { headers: ['Job', 'Unit', 'Pos', 'Day', 'Odo', 'Fill', 'Kind'] },
  dates: { order: 'dmy' },
  numbers: { decimal: 'comma' },
} as const;
const places = [
  { ours: 'unit_id', from: [{ header: 'Unit' }] },
  { ours: 'position', from: [{ header: 'Pos' }] },
  { ours: 'date', from: [{ header: 'Day' }] },
  { ours: 'miles', from: [{ header: 'Odo' }], unit: 'km' },
];
const head = 'Job;Unit;Pos;Day;Odo;Fill;Kind\n';
const mapWith = (more: object): ColumnMap => columnMapSchema.parse({ ...plain, ...more });
const services = (...more: object[]) =>
  mapWith({
    feeds: { table: 'services' },
    tables: { services: [{ ours: 'service_id', from: [{ header: 'Job' }] }, ...places, ...more] },
  });
const read = (text: string, map: ColumnMap, name = 'jobs.txt') =>
  readRecords(engine, [units, source(name, text)], { maps: [map] });

describe('a list that mixes services and failures', () => {
  const map = mapWith({
    feeds: { by: 'Kind', words: { work: 'services', '*leak*': 'failures', tyre: 'passed-over' }, others: 'set-aside' },
    tables: {
      services: [{ ours: 'service_id', from: [{ header: 'Job' }] }, ...places],
      failures: [
        { ours: 'failure_id', made: 'of-row' },
        ...places,
        { ours: 'mode', from: [{ header: 'Kind', words: { '*leak*': 'seal-unknown' } }] },
      ],
    },
  });
  const text =
    head +
    '1;7;LF;01.03.2024;160,9344;;Work\n2;7;1L;02.03.2024;;;Seal leak\n3;7;LF;03.03.2024;;;Tyre\n4;7;LF;04.03.2024;;;Wash\n5;7;LF\n';

  it('is told apart by a word of each row, and every row is counted once', async () => {
    const report = await read(text, map);
    expect(report.files.map((file) => [file.name, file.table, ...counts(file)])).toEqual([
      ['jobs.txt', 'services', 1, 1, 0],
      ['jobs.txt', 'failures', 1, 1, 0],
      ['jobs.txt', null, 3, 0, 3],
      ['units.csv', 'units', 2, 2, 0],
    ]);
    expect(await keptRows(engine, 'services')).toMatchObject([
      { service_id: '1', unit_id: '7', axle: '1', side: 'left', date: '2024-03-01', miles: '100.0', line: '2' },
    ]);
    expect(await keptRows(engine, 'failures')).toMatchObject([
      { failure_id: expect.stringMatching(/^r[0-9a-f]{16}$/) as string, mode: 'seal-unknown', miles: null, line: '3' },
    ]);
    expect((await asideOf(engine)).map(({ row, column, value, reason }) => [row, column, value, reason])).toEqual([
      [4, 'Kind', 'Tyre', 'passed over, as the column map says of this word'],
      [5, 'Kind', 'Wash', 'does not say which table the row feeds'],
      [6, '', '', 'has 3 cells for 7 headers'],
    ]);
  });

  it('gives made ids that next month’s file gives again, so that rows in both count once', async () => {
    const later = `${head}9;7;LF;01.04.2024;;;Work\n2;7;1L;02.03.2024;;;Seal leak\n`;
    const report = await readRecords(engine, [units, source('a.txt', text), source('b.txt', later)], { maps: [map] });
    const failures = report.files.filter(({ table }) => table === 'failures');
    expect(failures.map(counts)).toEqual([
      [1, 1, 0],
      [1, 0, 1],
    ]);
    expect((await asideOf(engine)).find(({ file }) => file === 'b.txt')?.reason).toContain('a.txt, row 3');
  });
});

describe('a row set aside', () => {
  it.each([
    ['1;7;XX;01.03.2024;;;', 'Pos', 'XX', /"XX" is no word/],
    ['1;7;axle 4 left;01.03.2024;;;', 'Pos', 'axle 4 left', /does not have/],
    ['1;8;RR;01.03.2024;1.5.1;;', 'Odo', '1.5.1', /not a number as this source writes them/],
    ['1;8;RR;31.02.2024;;;', 'Day', '31.02.2024', /no day of the calendar, read as day, month, year/],
    ['1;8;RR;;;;', 'Day', '', /blank where a value is needed/],
    ['1;8;;01.03.2024;;;', 'Pos', '', /blank where a value is needed/],
    ['1;8;RR;01.03.2024;99.999.999;;', 'Odo', '99.999.999', /more than the most/],
    ['1;8;RR;01.03.2024;;half;', 'Fill', 'half', /not a word of this column/],
  ])('%s names the file’s own header and value', async (row, column, value, reason) => {
    await read(`${head}${row}\n`, services({ ours: 'fill_level', from: [{ header: 'Fill' }] }));
    const [aside] = await asideOf(engine);
    expect(aside).toMatchObject({ file: 'jobs.txt', row: 2, column, value, original: row });
    expect(aside?.reason).toMatch(reason);
    expect(aside?.accepted).not.toBe('');
  });

  it('is kept, its cell not known and counted, where the map says so', async () => {
    const map = services({
      ours: 'fill_level',
      from: [{ header: 'Fill', words: { voll: 'ok' } }],
      unreadable: 'blank',
    });
    const report = await read(`${head}1;8;RR;01.03.2024;;half;\n2;8;LR;01.03.2024;;Voll;\n`, map);
    expect((await keptRows(engine, 'services')).map((row) => row['fill_level'])).toEqual([null, 'ok']);
    expect(report.messages.join()).toContain(
      'cells that cannot be read and count as not known: 1 of services fill_level',
    );
  });
});

describe('columns', () => {
  it('are joined, fixed, made of flags, cut to ids and blanked as the map says', async () => {
    const map = columnMapSchema.parse({
      ...plain,
      recognised: {
        headers: ['WO', 'Line', 'Unit', 'Axle', 'Side', 'Done', 'Closed', 'Seal', 'Brg', 'Note', 'Note (2)'],
      },
      feeds: { table: 'services' },
      blanks: ['N/A'],
      positions: { driverSits: 'left', axlesAhead: 3 },
      tables: {
        services: [
          { ours: 'service_id', from: [{ header: 'WO' }, { header: 'Line' }], joined: 'dash' },
          { ours: 'unit_id', from: [{ header: 'Unit' }], drop: '#', padTo: 1 },
          { ours: 'position', from: [{ header: 'Axle' }, { header: 'Side', only: 'side' }], joined: 'space' },
          { ours: 'date', from: [{ header: 'Done' }, { header: 'Closed' }], joined: 'first-filled' },
          { ours: 'shop', fixed: 'North' },
          {
            ours: 'replaced',
            from: [
              { header: 'Seal', words: { y: 'seal', n: '' } },
              { header: 'Brg', words: { y: 'bearings', n: '' } },
            ],
            joined: 'list',
          },
          { ours: 'comment', from: [{ header: 'Note (2)' }] },
        ],
      },
    });
    const text =
      'WO,Line,Unit,Axle,Side,Done,Closed,Seal,Brg,Note,Note\n' +
      '10,1,#8,4,D,2024-03-01,2024-03-09,Y,Y,x,first\n10,2,#8,5,P,n/a,2024-03-09,Y,N,x,N/A\n10,3,# 0007,2,D,2024-03-02,,N,N,x,\n';
    await read(text, map);
    const rows = await keptRows(engine, 'services');
    expect(
      rows.map(({ service_id, unit_id, axle, side, date, shop, replaced, comment }) => [
        service_id,
        unit_id,
        axle,
        side,
        date,
        shop,
        replaced,
        comment,
      ]),
    ).toEqual([
      ['10-1', '8', '1', 'left', '2024-03-01', 'North', 'seal;bearings', 'first'],
      ['10-2', '8', '2', 'right', '2024-03-09', 'North', 'seal', null],
      ['10-3', '0007', '2', 'left', '2024-03-02', 'North', null, null],
    ]);
  });
});

describe('which map a file is read by', () => {
  const text = `${head}1;8;RR;01.03.2024;;;\n`;

  it('is told by its headers, wherever the map is saved', async () => {
    const map = services();
    const inSet = source('record-set.json', JSON.stringify({ columnMaps: { north: map } }));
    const beside = source('north.json', JSON.stringify(map));
    for (const saved of [inSet, beside]) {
      const report = await readRecords(engine, [units, saved, source('jobs.txt', text)]);
      expect(report.files.map((file) => [file.name, ...counts(file)])).toEqual([
        ['jobs.txt', 1, 1, 0],
        ['units.csv', 2, 2, 0],
      ]);
      expect(report.messages).toContain('jobs.txt was read by the column map north');
    }
  });

  it('says what is new in the file, and reads it all the same', async () => {
    const wider = `${head.trimEnd()};Extra\n1;8;RR;01.03.2024;;;;x\n`;
    const report = await read(wider, services());
    expect(report.messages.join()).toContain('columns that its map does not know, and that are not used: Extra');
    expect(report.files[0]?.unusedColumns).toEqual(['Fill', 'Kind', 'Extra']);
  });

  it('fits JSON lines that leave out a column no row fills, unless a new name may be that column', async () => {
    const row = { Job: 1, Unit: 8, Pos: 'RR', Day: '01.03.2024', Odo: 160, Kind: 'x' };
    const lines = (...objects: object[]) => objects.map((object) => JSON.stringify(object)).join('\n');
    const map = services({ ours: 'fill_level', from: [{ header: 'Fill' }] });
    const report = await read(lines(row), map, 'jobs.jsonl');
    expect(await keptRows(engine, 'services')).toMatchObject([{ service_id: '1', fill_level: null, side: 'right' }]);
    expect(report.messages).toContain('jobs.jsonl has no row that fills the columns Fill');
    const renamed = await read(lines({ ...row, Level: 'ok' }), map, 'jobs.jsonl');
    expect(accountOf(renamed, 'jobs.jsonl').refused).toContain('columns that are not there: Fill; new in it: Level');
    const lost = async (text: string, name: string) => accountOf(await read(text, map, name), name).refused;
    expect(await lost(lines({ ...row, Day: undefined }), 'jobs.jsonl')).toContain('not there: Day;');
    // A table without such a column has lost it.
    expect(await lost('Job;Unit;Pos;Day;Odo;Kind\n1;8;RR;01.03.2024;;x\n', 'jobs.txt')).toContain('not there: Fill');
  });

  it('is nobody’s guess where two fit alike', async () => {
    const two = [services(), { ...services(), source: 'south' }];
    const report = await readRecords(engine, [units, source('jobs.txt', text)], { maps: two });
    expect(report.files.find(({ name }) => name === 'jobs.txt')?.refused).toContain(
      'fits two column maps alike, north and south',
    );
    const named = [two[0]!, { ...two[1]!, recognised: { ...two[1]!.recognised, fileName: 'job?.*' } }];
    const told = await readRecords(engine, [units, source('jobs.txt', text)], { maps: named });
    expect(told.messages).toContain('jobs.txt was read by the column map south');
  });

  it('changes what the answers stand on', async () => {
    const one = await read(text, services());
    const other = await read(text, mapWith({ ...services(), dates: { order: 'mdy' } }));
    expect(one.fingerprint).not.toBe(other.fingerprint);
    expect((await read(text, services())).fingerprint).toBe(one.fingerprint);
  });
});
