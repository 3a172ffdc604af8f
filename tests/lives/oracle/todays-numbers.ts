// Rows under former unit numbers put with the unit of today, over plain rows.
import type { Row } from '../record-tables-in-engine.ts';
import { dayOf } from './odometer.ts';

const formerOf = (unit: Row) =>
  String(unit['former_ids'] ?? '')
    .split(';')
    .filter((name) => name !== '');

/**
 * Renames in place. Told here is what the drawn fleets hold: a number claimed by one unit, which
 * another unit may bear from a later day in service on, and the unit's own older row.
 */
export function underTodaysNumbers(
  tables: Record<'units' | 'readings' | 'services' | 'inspections' | 'failures', Row[]>,
): void {
  const units = tables.units;
  const older = new Set<Row>();
  const names = new Map<string, { unitId: string; until: number }>();
  for (const unit of units)
    for (const name of formerOf(unit)) {
      const own = units.find((other) => other['unit_id'] === name);
      const later = own && dayOf(own['in_service_date'])! > dayOf(unit['in_service_date'])!;
      if (own && !later) {
        older.add(own);
        const said = (row: Row, date: string, miles: string) => {
          if (row[date] && typeof row[miles] === 'number')
            tables.readings.push({ unit_id: String(unit['unit_id']), date: row[date], miles: row[miles] });
        };
        said(own, 'out_date', 'out_miles');
        said(unit, 'in_service_date', 'in_service_miles');
        for (const column of ['in_service_date', 'in_service_miles', 'acquired']) unit[column] = own[column] ?? null;
      }
      names.set(name, { unitId: String(unit['unit_id']), until: later ? dayOf(own['in_service_date'])! : Infinity });
    }
  tables.units = units.filter((unit) => !older.has(unit));
  for (const table of ['readings', 'services', 'inspections', 'failures'] as const)
    for (const row of tables[table]) {
      const found = names.get(String(row['unit_id']));
      if (found && dayOf(row['date'])! < found.until) row['unit_id'] = found.unitId;
    }
}
