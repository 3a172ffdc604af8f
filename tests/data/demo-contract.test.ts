// The shipped fleet against the record contract: names, words, dates and miles as its sections 1 to 4 say.
import { describe, expect, it } from 'vitest';
import { deviations as contractDeviations } from '../../shared/deviations.ts';
import { recordTables, tableNames } from '../../shared/record-tables.ts';
import { recordSetSchema } from '../../shared/record-set.ts';
import { demoFiles } from '../../data/demo/demo-files.ts';
import { DEVIATIONS } from '../../data/demo/planted-deviations.ts';
import { generateDemoFleet } from '../../data/demo/generate-demo-fleet.ts';
import type { Cell } from '../../data/demo/rows.ts';

const fleet = generateDemoFleet();
type Row = Readonly<Record<string, Cell>>;
const rowsOf = (table: (typeof tableNames)[number]) => fleet[table] as unknown as readonly Row[];
const wheelEnd = ({ unit_id, axle, side }: Row) => `${unit_id} ${axle} ${side}`;
const count = (rows: readonly Row[], wrong: (row: Row) => boolean) => rows.filter(wrong).length;
const roles = new Map(fleet.units.map(({ unit_id, axle_roles }) => [unit_id, axle_roles.split(' ')]));

function cellFault(column: (typeof recordTables)['units'][number], cell: Cell): string | null {
  if (cell === null) return column.required ? 'blank' : null;
  const words = column.kind === 'list' ? String(cell).split(/[ ;]/) : [String(cell)];
  if (column.choices && !words.every((word) => column.choices?.includes(word))) return `word ${cell}`;
  if (column.kind === 'date' && new Date(`${cell}T00:00:00Z`).toISOString().slice(0, 10) !== cell)
    return `date ${cell}`;
  if (column.kind !== 'number' && column.kind !== 'integer') return null;
  if (typeof cell !== 'number' || !Number.isFinite(cell)) return `number ${cell}`;
  if (column.kind === 'integer' && !Number.isInteger(cell)) return `whole number ${cell}`;
  return cell < (column.minimum ?? -Infinity) || cell > (column.maximum ?? Infinity) ? `range ${cell}` : null;
}

describe.each(tableNames)('table %s', (table) => {
  it('holds only columns, words, dates and numbers of the contract', () => {
    const faults = new Set<string>();
    const columns = new Map(recordTables[table].map((column) => [column.name, column]));
    for (const row of rowsOf(table))
      for (const [name, cell] of Object.entries(row)) {
        const column = columns.get(name);
        const fault = column ? cellFault(column, cell) : 'no such column';
        if (fault) faults.add(`${name}: ${fault}`);
      }
    expect([...faults]).toEqual([]);
    expect(rowsOf(table).length).toBeGreaterThan(100);
  });

  it('has one id a row', () => {
    const id = recordTables[table].find(({ name }) => name.endsWith('_id'))?.name as string;
    const key = (row: Row) => (table === 'readings' ? `${row['unit_id']} ${row['date']}` : row[id]);
    expect(new Set(rowsOf(table).map(key)).size).toBe(rowsOf(table).length);
  });
});

const events = [...rowsOf('services'), ...rowsOf('inspections'), ...rowsOf('failures')];

describe('the records of the demo fleet', () => {
  it('name wheel ends that exist', () => {
    const missing = count(events, (row) => Number(row['axle']) > (roles.get(String(row['unit_id']))?.length ?? 0));
    expect(missing).toBe(0);
  });

  it('stay within the stay of each unit, and failures and inspections within the window', () => {
    const units = new Map(fleet.units.map((unit) => [unit.unit_id, unit]));
    const outside = (row: Row) => {
      const unit = units.get(String(row['unit_id']));
      const date = String(row['date']);
      return !unit || date < unit.in_service_date || date > (unit.out_date ?? fleet.observedTo);
    };
    expect(count([...events, ...rowsOf('readings')], outside)).toBe(0);
    const unobserved = (row: Row) => String(row['date']) < fleet.observedFrom || String(row['date']) > fleet.observedTo;
    expect(count([...rowsOf('inspections'), ...rowsOf('failures')], unobserved)).toBe(0);
    expect(fleet.observedTo < '2026-01-01').toBe(true);
  });

  it('have miles that never run backward nor faster than 1,500 a day, and few blanks', () => {
    const known = new Map<string, { day: number; miles: number }[]>();
    const add = (unit: Cell | undefined, date: Cell | undefined, miles: Cell | undefined) => {
      if (typeof miles !== 'number') return;
      const points = known.get(String(unit)) ?? [];
      points.push({ day: Date.parse(String(date)) / 86_400_000, miles });
      known.set(String(unit), points);
    };
    for (const row of [...events, ...rowsOf('readings')]) add(row['unit_id'], row['date'], row['miles']);
    for (const row of rowsOf('units')) {
      add(row['unit_id'], row['in_service_date'], row['in_service_miles']);
      add(row['unit_id'], row['out_date'], row['out_miles']);
    }
    let faults = 0;
    for (const points of known.values()) {
      points.sort((a, b) => a.day - b.day || a.miles - b.miles);
      points.slice(1).forEach((point, index) => {
        const before = points[index] as { day: number; miles: number };
        const run = point.miles - before.miles;
        if (run < 0 || run > 1_500 * (point.day - before.day)) faults++;
      });
    }
    expect(faults).toBe(0);
    expect(count(events, (row) => row['miles'] === null) / events.length).toBeLessThan(0.05);
    expect(count(events, (row) => row['miles'] === null)).toBeGreaterThan(0);
  });

  it('link failures to later services of the same wheel end, and leave some for the 30-day rule', () => {
    const services = new Map(fleet.services.map((row) => [row.service_id, row]));
    const linked = fleet.failures.filter((row) => row.repair_service_id !== null);
    const wrong = linked.filter((row) => {
      const service = services.get(row.repair_service_id as string);
      return !service || wheelEnd({ ...service }) !== wheelEnd({ ...row }) || service.date < row.date;
    });
    expect(wrong).toEqual([]);
    expect(linked.length / fleet.failures.length).toBeGreaterThan(0.85);
    expect(linked.length).toBeLessThan(fleet.failures.length);
  });

  it('write deviations only where they can exist', () => {
    const scopes = new Map(contractDeviations.map(({ code, scope }) => [code, scope]));
    const wrong = fleet.services.filter((row) =>
      (row.deviations ?? '').split(';').some((code) => {
        if (code === '' || row.hub_build === null) return false;
        const scope = scopes.get(code);
        return !scope || (scope.hubBuilds !== undefined && !scope.hubBuilds.includes(row.hub_build));
      }),
    );
    expect(wrong).toEqual([]);
    expect(DEVIATIONS.map(({ code }) => code).sort()).toEqual(contractDeviations.map(({ code }) => code).sort());
  });

  it('measure end play on adjusted hubs only, with a value exactly where it was measured', () => {
    const wrong = fleet.services.filter(
      (row) =>
        (row.end_play_in !== null) !== (row.end_play_measured === 'yes') ||
        (row.end_play_in !== null && row.hub_build !== 'adjusted' && row.hub_build !== null),
    );
    expect(wrong).toEqual([]);
  });

  it('say that they are invented', () => {
    const text = demoFiles(generateDemoFleet({ units: 1 })).find(({ name }) => name === 'record-set.json')?.text ?? '';
    expect(recordSetSchema.parse(JSON.parse(text))).toMatchObject({ invented: true, observedFrom: '2019-07-01' });
  });
});
