import { quantityOf, unitsOf } from '../../../lib/records/column-map/column-quantity.ts';
import type { RecordColumn } from '../../../shared/record-tables.ts';
import type { CellUnit } from '../../../shared/units.ts';

/** Units that a shop may write a column of ours in, the one kept inside first; none where it measures nothing. */
export function unitChoices(column: RecordColumn): CellUnit[] {
  const quantity = quantityOf(column);
  return quantity === null ? [] : unitsOf(quantity);
}
