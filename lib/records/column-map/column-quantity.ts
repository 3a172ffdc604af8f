import type { RecordColumn } from '../../../shared/record-tables.ts';
import { cellUnitFacts, cellUnits, type CellQuantity, type CellUnit } from '../../../shared/units.ts';

/** What a column of the contract measures, by the unit in its name; null where it measures nothing with a choice of units. */
export function quantityOf({ name, kind }: RecordColumn): CellQuantity | null {
  if (kind !== 'number') return null;
  if (/(^|_)miles(_|$)/.test(name)) return 'miles';
  if (name.endsWith('_ftlb')) return 'torque';
  if (name.endsWith('_in')) return 'length';
  return name.endsWith('_hours') ? 'hours' : null;
}

/** Units that a shop may write a quantity in, the one kept inside first. */
export const unitsOf = (quantity: CellQuantity): CellUnit[] =>
  cellUnits.filter((unit) => cellUnitFacts[unit].quantity === quantity);
