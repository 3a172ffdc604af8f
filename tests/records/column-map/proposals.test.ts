import { describe, expect, it } from 'vitest';
import { proposeMap, UnitRoles } from '../../../lib/records/index.ts';

const roles = new UnitRoles();
for (const unit of ['7', '8', '9']) roles.add(unit, 'steer drive drive');

const propose = (headers: string, ...rows: string[]) =>
  proposeMap(
    'list.csv',
    headers.split(','),
    rows.map((row) => row.split(',')),
    roles,
  );
const columnsOf = ({ map }: ReturnType<typeof propose>, table: 'services' | 'failures') =>
  Object.fromEntries((map.tables[table] ?? []).map(({ ours, ...source }) => [ours, source]));

const jobs = 'Line ID,WO,Unit,Wheel Position,Repair Date,Odometer,Parts Replaced';
const job = (line: number, order: number, day: string, unit = 7) =>
  `${line},${order},${unit},LF,2024-03-${day},${50_000 + line},wheel seal`;
const five = [job(1, 10, '01'), job(2, 10, '01'), job(3, 11, '02'), job(4, 12, '05'), job(5, 12, '06')];

describe('the column of ids', () => {
  it('stays so where a row is exported twice, or once more at another date', () => {
    for (const again of [job(3, 11, '02'), job(3, 11, '28')])
      expect(columnsOf(propose(jobs, ...five, again), 'services')).toMatchObject({
        service_id: { from: [{ header: 'Line ID' }] },
        order_id: { from: [{ header: 'WO' }] },
      });
  });

  it('is none whose numbers other rows bear, too', () => {
    const shared = job(3, 13, '09', 8);
    // Beside its order the line is another in every row, but for the one exported twice.
    expect(columnsOf(propose(jobs, ...five, shared, job(5, 12, '06')), 'services')['service_id']).toEqual({
      from: [{ header: 'WO' }, { header: 'Line ID' }],
      joined: 'dash',
    });
    const orders = propose(jobs.replace('Line ID', 'Bay'), ...five, shared);
    expect(columnsOf(orders, 'services')['service_id']).toEqual({ made: 'of-row' });
  });
});

describe('the day of a row', () => {
  const heads = 'Line ID,Unit,Wheel Position,at,Odometer (mi),Parts Replaced';
  const rows = five.map((row) =>
    row
      .split(',')
      .filter((_, at) => at !== 1)
      .join(','),
  );

  it('is the one column of days, whatever its name', () => {
    expect(columnsOf(propose(heads, ...rows), 'services')['date']).toEqual({ from: [{ header: 'at' }] });
  });

  it('is asked for among several, and never one of opening or closing', () => {
    const two = propose(`${heads},then`, ...rows.map((row) => `${row},2024-04-01`));
    expect(columnsOf(two, 'services')['date']).toBeUndefined();
    const ask = two.asks.find(({ id }) => id === 'services date');
    expect(ask?.options.map(({ label }) => label)).toEqual(['at', 'then']);
    const closed = propose(`${heads},Closed`, ...rows.map((row) => `${row},2024-04-01`));
    expect(columnsOf(closed, 'services')['date']).toEqual({ from: [{ header: 'at' }] });
  });
});

it('takes the unit of each row from a column that says nothing else, and asks no more', () => {
  const rows = five.map((row, at) => `${row},${at % 2 === 0 ? 'KM' : 'mi'}`);
  const proposal = propose(`${jobs},Meter UoM`, ...rows);
  expect(columnsOf(proposal, 'services')['miles']).toMatchObject({ unitFrom: { header: 'Meter UoM' } });
  expect(proposal.asks.map(({ id }) => id)).not.toContain('unit Odometer');
  expect(propose(jobs, ...five).asks.map(({ id }) => id)).toContain('unit Odometer');
});

it('knows the long words of German headers', () => {
  const proposal = propose(
    'Schaden-Nr.,Fahrzeug-Nr.,Achse,Seite,Festgestellt am,Kilometerstand,Festgestellt durch,Schadensart,Reparatur-Zeile',
    'A1,7,1,links,01.03.2024,80000,Fahrer,Dichtring undicht,W1',
    'A2,8,2,rechts,17.03.2024,90000,Fahrer,Lagerschaden,W2',
    'A3,9,3,links,21.04.2024,95000,Panne,Dichtring undicht,W9',
  );
  expect(proposal.map.feeds).toEqual({ table: 'failures' });
  expect(columnsOf(proposal, 'failures')).toMatchObject({
    failure_id: { from: [{ header: 'Schaden-Nr.' }] },
    date: { from: [{ header: 'Festgestellt am' }] },
    miles: { from: [{ header: 'Kilometerstand' }], unit: 'km' },
    found_by: { from: [{ header: 'Festgestellt durch' }] },
    mode: { from: [{ header: 'Schadensart' }] },
    repair_service_id: { from: [{ header: 'Reparatur-Zeile' }] },
  });
});

it('takes a flag that no row of the sample sets for one of the parts it stands among', () => {
  const rows = five.map((row, at) => [...row.split(',').slice(0, -1), 'X', at === 1 ? 'X' : '', ''].join(','));
  const heads = jobs.replace('Parts Replaced', 'Seal changed,Gasket changed,Lock ring changed');
  expect(columnsOf(propose(heads, ...rows), 'services')['replaced']).toEqual({
    from: [
      { header: 'Seal changed', words: { x: 'seal' } },
      { header: 'Gasket changed', words: { x: 'gasket' } },
      { header: 'Lock ring changed', words: { x: 'lock' } },
    ],
    joined: 'list',
  });
});

describe('one list of work orders for looks, work and breakdowns', () => {
  const heads = 'WO #;Veh No;Opened;Closed;Odo (km);WE Pos;Job type;Complaint;Seal renewed;Inner nut (Nm)';
  const rows = [
    '4411;7;14.02.2023;16.02.2023;412350;LF;PM;;Y;400',
    '4412;8;15.02.2023;16.02.2023;300100;RF;PM;;Y;395',
    '4502;7;03.05.2023;03.05.2023;451002;LF;Breakdown;wheel seal leaking inboard;Y;',
    '4503;9;04.05.2023;31.02.2023;81002;LF;Breakdown;hot hub;N;',
    '4533;8;21.06.2023;22.06.2023;310877;LF;Insp;;N;',
  ];
  const proposal = proposeMap(
    'wo.csv',
    heads.split(';'),
    rows.map((row) => row.split(';')),
    roles,
  );

  it('takes rows under a word of looking for services where they say what was done, and asks before it passes over', () => {
    expect(proposal.map.feeds).toMatchObject({
      words: { pm: 'services', breakdown: 'failures', insp: 'passed-over' },
    });
    expect(proposal.asks.find(({ id }) => id === 'unseen')?.question).toMatch(/"Job type" is "insp" say neither/);
  });

  it('takes a lone flag for a part replaced only where its header says so', () => {
    expect(columnsOf(proposal, 'services')['replaced']).toMatchObject({
      from: [{ header: 'Seal renewed', words: { y: 'seal' } }],
    });
    const mute = propose(jobs.replace('Parts Replaced', 'Seal'), ...five.map((row) => row.replace('wheel seal', 'Y')));
    expect(columnsOf(mute, 'services')['replaced']).toBeUndefined();
  });

  it('offers the days of opening and of closing, slips among them, and tells their order beforehand', () => {
    const ask = proposal.asks.find(({ id }) => id === 'services date');
    expect(ask?.options.map(({ label, set }) => [label, set[0]?.value])).toEqual([
      ['Opened', { ours: 'date', from: [{ header: 'Opened' }], day: 'opened' }],
      ['Closed', { ours: 'date', from: [{ header: 'Closed' }], day: 'closed' }],
    ]);
    expect(proposal.map.dates.order).toBe('dmy');
  });
});

it('reads axles by their letters, and miles at the start whose unit stands in the header', () => {
  const proposal = proposeMap(
    'units.csv',
    ['Fleet Number', 'Type', 'Axle config', 'Bought', 'Start odo km', 'In service'],
    [
      ['71', 'Tractor 6x4', 'S D D', 'New', '12', '2021-02-13'],
      ['92', 'Semi-trailer', 'T T T', 'New', '5', '2022-09-07'],
    ],
    new UnitRoles(),
  );
  const units = Object.fromEntries((proposal.map.tables.units ?? []).map(({ ours, ...source }) => [ours, source]));
  expect(units['in_service_miles']).toEqual({ from: [{ header: 'Start odo km' }], unit: 'km' });
  expect(units['axle_roles']).toMatchObject({
    from: [{ words: { s: 'steer', d: 'drive', 't t t': 'trailer trailer trailer' } }],
  });
  expect(proposal.columns.flatMap(({ unknownWords }) => unknownWords)).toEqual([]);
});

it('tells days and miles of coming and going from their reasons, and who found a failure from when it was reported', () => {
  const units = proposeMap(
    'assets.csv',
    ['Asset', 'Asset Class', 'Axles', 'Delivered', 'Delivery Miles', 'Disposed', 'Disposal Miles'],
    [
      ['T-1', 'Truck Tractor', '6X4', '6/13/2019', '35', '', ''],
      ['T-2', 'Truck Tractor', '4X2', '8/15/2020', '210,442', '5/20/2024', '640,113'],
    ],
    new UnitRoles(),
  );
  const from = Object.fromEntries((units.map.tables.units ?? []).map(({ ours, from }) => [ours, from?.[0]?.header]));
  expect(from).toMatchObject({ in_service_date: 'Delivered', in_service_miles: 'Delivery Miles' });
  expect(from).toMatchObject({ out_date: 'Disposed', out_miles: 'Disposal Miles' });
  expect(from).not.toHaveProperty('out_reason');
  const defects = propose(
    'Defect ID,Asset,Reported At,Odometer mi,Wheel,Symptom,Reported By',
    'D1,7,2024-03-01,80000,LF,wheel seal leaking,Driver DVIR',
    'D2,8,2024-03-04,90000,RF,lube low,Annual',
  );
  expect(columnsOf(defects, 'failures')).toMatchObject({
    found_by: { from: [{ header: 'Reported By', words: { 'driver dvir': 'driver' } }] },
    mode: { from: [{ words: { 'lube low': 'lubricant-low' } }] },
  });
  expect(defects.asks.find(({ id }) => id === 'failures date')?.options[0]?.label).toBe('Reported At');
});
