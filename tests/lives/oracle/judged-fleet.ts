// Records as they are once numbers, meters and miles were judged (record contract, section 2), over plain rows.
import { defaultChoices, type Choices } from '../../../shared/choices.ts';
import type { Fleet, Row } from '../record-tables-in-engine.ts';
import { estimateLikeUnits } from './like-units-by-hand.ts';
import { judgeMeter, type Point } from './meter-by-hand.ts';
import { dayOf, eventTables, numberOf, type Window } from './odometer.ts';
import { underTodaysNumbers } from './todays-numbers.ts';

export interface JudgedFleet {
  readonly fleet: Fleet;
  /** Rows whose miles were put right: no better than interpolated. */
  readonly repaired: ReadonlySet<Row>;
  /** Units whose miles are those of units like them. */
  readonly estimated: ReadonlySet<string>;
  /** Miles of a unit at which its meter changed and nobody wrote down how far it had run. */
  readonly gaps: ReadonlyMap<string, readonly number[]>;
}

type Tables = { -readonly [table in keyof Required<Fleet>]: Row[] };

/** One cell that says miles of a unit on a day. */
interface Cell {
  readonly row: Row;
  readonly day: number;
  readonly miles: number;
  readonly column: string;
  readonly trust: number;
}

function cellsOf(unitId: string, tables: Tables): Cell[] {
  const cells: Cell[] = [];
  const add = (row: Row, date: string, column: string, trust: number) => {
    const [day, miles] = [dayOf(row[date]), numberOf(row[column])];
    if (row['unit_id'] === unitId && day !== null && miles !== null) cells.push({ row, day, miles, column, trust });
  };
  for (const row of tables.readings) add(row, 'date', 'miles', row['source'] === 'estimated' ? 0 : 2);
  for (const row of tables.units) add(row, 'in_service_date', 'in_service_miles', 2);
  for (const row of tables.units) add(row, 'out_date', 'out_miles', 2);
  for (const table of eventTables) for (const row of tables[table]) add(row, 'date', 'miles', 1);
  return cells;
}

function distinct(cells: readonly Cell[]): Point[] {
  const points = new Map<string, Point>();
  for (const { day, miles, trust } of cells) {
    const held = points.get(`${day} ${miles}`);
    points.set(`${day} ${miles}`, { day, miles, trust: Math.max(trust, held?.trust ?? 0) });
  }
  return [...points.values()].sort((a, b) => a.day - b.day || a.miles - b.miles);
}

/** Every row with the miles to be used, blank where its day is to be interpolated. */
export function judgedFleet(written: Fleet, window: Window | null, choices: Choices = defaultChoices): JudgedFleet {
  const copy = (rows: readonly Row[] | undefined) => (rows ?? []).map((row) => ({ ...row }));
  const tables: Tables = {
    ...{ units: copy(written.units), readings: copy(written.readings), services: copy(written.services) },
    ...{ inspections: copy(written.inspections), failures: copy(written.failures) },
  };
  if (choices.formerIds) underTodaysNumbers(tables);
  const repaired = new Set<Row>();
  const gaps = new Map<string, number[]>();
  const unitIds = new Set(Object.values(tables).flatMap((rows) => rows.map((row) => String(row['unit_id']))));
  for (const unitId of unitIds) {
    const cells = cellsOf(unitId, tables);
    const events = tables.readings
      .filter((row) => row['unit_id'] === unitId && row['event'])
      .map((row) => ({
        day: dayOf(row['date'])!,
        before: numberOf(row['miles_before']),
        after: numberOf(row['miles'])!,
      }))
      .sort((a, b) => a.day - b.day);
    const judged = judgeMeter(distinct(cells), events, choices.mileage);
    for (const { row, day, miles, column } of cells) {
      const verdict = judged.used.get(`${day} ${miles}`)!;
      row[column] = verdict.miles;
      if (verdict.slipped) repaired.add(row);
    }
    for (const { day, miles } of judged.further)
      tables.readings.push({ unit_id: unitId, date: new Date(day * 86_400_000).toISOString().slice(0, 10), miles });
    gaps.set(unitId, judged.gaps);
    for (const unit of tables.units)
      if (unit['unit_id'] === unitId && !unit['out_date'] && typeof unit['out_miles'] === 'number')
        unit['out_miles'] += judged.shift;
  }
  tables.readings = tables.readings.filter((row) => row['miles'] !== null);
  const estimated = choices.mileage['like-units'] && window ? estimateLikeUnits(tables, window) : new Set<string>();
  return { fleet: tables, repaired, estimated, gaps };
}
