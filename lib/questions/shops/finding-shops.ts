import { numberColumn, textColumn } from '../../engine/engine.ts';
import { identifier, sql, type Statement } from '../../engine/statement.ts';
import type { Component } from '../../../shared/vocabulary.ts';
import { livesTable } from '../../lives/index.ts';
import { run, type Asking } from '../asking.ts';
import type { CutCodes } from '../columns/cut-codes.ts';

/**
 * The shop in whose hands each life ended: that of the service that began the next one there, else,
 * while nobody has renewed it, the vehicle's home shop. It is the shop that finds, not the one that
 * fitted; a life is put to it by how it ended.
 */
export const findingShopsStatement = (component: Component): Statement => sql`
with homes as (select unit_id, any_value(home_shop) as home_shop from fleet_units group by unit_id)
select cast(l.rowid as integer) as life_row, coalesce(n.shop, h.home_shop, 'unknown') as shop
from (select rowid, unit_id, wheel_end, slot from ${identifier(livesTable(component))}) l
left join (select wheel_end, slot, shop from ${identifier(livesTable(component))}) n on n.wheel_end = l.wheel_end and n.slot = l.slot + 1
left join homes h on h.unit_id = l.unit_id`;

/** By life, in the order of the lives table; null where no records stand behind the lives. */
export async function findingShops(asking: Asking, component: Component, rows: number): Promise<CutCodes | null> {
  if (!asking.source.fromRecords) return null;
  const found = await run(asking, findingShopsStatement(component));
  const [place, shop] = [numberColumn(found, 'life_row'), textColumn(found, 'shop')];
  const levels = [...new Set(shop)].map((label) => label ?? 'unknown').sort();
  const codeOf = new Map(levels.map((label, code) => [label, code]));
  const codes = new Int32Array(rows);
  for (let at = 0; at < found.rows; at++) codes[place[at] as number] = codeOf.get(shop[at] ?? 'unknown') as number;
  return { levels, codes };
}
