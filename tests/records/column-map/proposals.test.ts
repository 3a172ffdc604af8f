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
