import type { Component } from '../../../shared/vocabulary.ts';
import { numberColumn } from '../../engine/engine.ts';
import { identifier, sql, type Statement } from '../../engine/statement.ts';
import { livesTable } from '../../lives/index.ts';
import { run, type Asking } from '../asking.ts';

/** Lives renewed because the mate end failed, by its failure row or its order (record contract 5.3). */
export const mateRenewalsStatement = (component: Component): Statement => sql`
select cast(l.life_row as integer) as life_row
from (select rowid as life_row, wheel_end, slot, state from ${identifier(livesTable(component))}) l
join ${identifier(`work_renewal_states_${component}`)} r on r.wheel_end = l.wheel_end and r.ordinal = l.slot + 1
where l.state = 'planned' and (r.mate_failed_by_row or r.mate_failed_by_order)`;

/** By place in the lives table; null where no records tell. */
export async function mateRenewals(asking: Asking, component: Component): Promise<ReadonlySet<number> | null> {
  if (!asking.source.fromRecords) return null;
  const found = await run(asking, mateRenewalsStatement(component));
  return new Set(numberColumn(found, 'life_row'));
}
