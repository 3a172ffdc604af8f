// What goes wrong with miles and numbers in real exports, done to the rows of one unit.
import fc from 'fast-check';
import type { Fleet, Row } from '../record-tables-in-engine.ts';

const kinds = [
  'digit',
  'kilometres',
  'low',
  'fast',
  'told-reset',
  'untold-reset',
  'no-odometer',
  'renumbered',
  'merged',
] as const;

export interface Trouble {
  readonly kind: (typeof kinds)[number];
  readonly row: number;
  readonly day: number;
}

/** Most units have none. */
export const troubles: fc.Arbitrary<readonly Trouble[]> = fc.oneof(
  { weight: 3, arbitrary: fc.constant([]) },
  {
    weight: 2,
    arbitrary: fc.array(
      fc.record({ kind: fc.constantFrom(...kinds), row: fc.nat(40), day: fc.integer({ min: 100, max: 1_400 }) }),
      { minLength: 1, maxLength: 2 },
    ),
  },
);

const events = ['readings', 'services', 'inspections', 'failures'] as const;

function spoil(
  rows: Required<Fleet>,
  { kind, row: at, day }: Trouble,
  isoDay: (day: number) => string,
): Required<Fleet> {
  const all = events.flatMap((table) => rows[table]);
  const [unit] = rows.units as [Row];
  const chosen = all[at % Math.max(all.length, 1)];
  const each = (change: (row: Row) => Row): Required<Fleet> => ({
    ...rows,
    ...Object.fromEntries(events.map((table) => [table, rows[table].map(change)])),
  });
  const miles = (row: Row, change: (miles: number) => number | null): Row =>
    typeof row['miles'] === 'number' ? { ...row, miles: change(row['miles']) } : row;
  const date = isoDay(day);
  const since = (row: Row) => String(row['date']) > date;
  switch (kind) {
    case 'digit':
      return each((row) =>
        row === chosen ? miles(row, (some) => Number(`${String(some).slice(0, 1)}7${String(some).slice(1)}`)) : row,
      );
    case 'kilometres':
      return each((row) => (row === chosen ? miles(row, (some) => Math.round(some * 1.609344)) : row));
    case 'low':
      return each((row) => (row === chosen ? miles(row, (some) => Math.floor(some * 0.4)) : row));
    case 'fast':
      return each((row) => (row === chosen ? miles(row, (some) => some + 2_000_003) : row));
    case 'told-reset':
    case 'untold-reset': {
      // The meter was at what the last row before said, and went on from zero.
      const before = Math.max(0, ...all.filter((row) => !since(row)).map((row) => Number(row['miles'] ?? 0)));
      const changed = each((row) => (since(row) ? miles(row, (some) => Math.max(0, some - before)) : row));
      const event = {
        unit_id: unit['unit_id'] as string,
        date,
        miles: 0,
        event: 'reset',
        miles_before: at % 3 === 0 ? null : before,
      };
      const out = typeof unit['out_miles'] === 'number' && String(unit['out_date']) > date;
      const units = out ? [{ ...unit, out_miles: Math.max(0, Number(unit['out_miles']) - before) }] : rows.units;
      return { ...changed, units, readings: kind === 'told-reset' ? [...changed.readings, event] : changed.readings };
    }
    case 'no-odometer': {
      const blank = each((row) => miles(row, () => null));
      return {
        ...blank,
        readings: [],
        units: [
          { ...unit, in_service_miles: at % 2 === 0 ? (unit['in_service_miles'] ?? null) : null, out_miles: null },
        ],
      };
    }
    case 'renumbered': {
      const old = `${String(unit['unit_id'])}-old`;
      const renamed = each((row) => (since(row) ? row : { ...row, unit_id: old }));
      return { ...renamed, units: [{ ...unit, former_ids: unit['former_ids'] ?? old }] };
    }
    case 'merged': {
      if (unit['former_ids'] || !unit['in_service_date']) return rows;
      // The fleet list has the unit twice: under its first number until that day, and under today's.
      const old = `${String(unit['unit_id'])}-first`;
      const renamed = each((row) => (since(row) ? row : { ...row, unit_id: old }));
      const first = { ...unit, unit_id: old, out_date: date, out_miles: null, out_reason: 'transferred' };
      const late = { ...unit, former_ids: old, in_service_date: date, in_service_miles: null, acquired: null };
      return String(unit['in_service_date']) < date ? { ...renamed, units: [first, late] } : rows;
    }
  }
}

export const spoiled = (
  rows: Required<Fleet>,
  some: readonly Trouble[],
  isoDay: (day: number) => string,
): Required<Fleet> =>
  some.reduce((spoiling, trouble) => (spoiling.units.length === 1 ? spoil(spoiling, trouble, isoDay) : spoiling), rows);
