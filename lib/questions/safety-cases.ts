import type { View } from '../../shared/view.ts';
import { numberColumn, textColumn, type ResultTable } from '../engine/engine.ts';
import { identifier, sql, type Statement } from '../engine/statement.ts';
import { isSafetyCritical } from './comparison.ts';
import { scopeSql } from './scope.ts';
import { deviationOf } from './words/group-words.ts';

/** A failed life that carried a safety-critical deviation, with what leads back to its records. */
export interface SafetyCase {
  readonly unitId: string;
  readonly position: string;
  readonly mode: string;
  /** Miles since installation; NaN where the start is not known. */
  readonly miles: number;
  readonly endId: string;
}

/** The safety-critical deviation among the cuts, as its column; null where there is none. */
export const criticalColumn = (view: View): string | null =>
  view.by.find((column) => isSafetyCritical(deviationOf(column))) ?? null;

/** Every failed case of a safety-critical deviation; null where the view is not cut by one. */
export function safetyCasesStatement(view: View, table = 'lives_seal'): Statement | null {
  const column = criticalColumn(view);
  if (column === null) return null;
  return sql`
select unit_id, coalesce(position, 'unknown') as position, coalesce(mode, 'unknown') as mode, exit_miles, coalesce(end_id, life_id) as end_id
from ${identifier(table)} where ${scopeSql(view)} and ${identifier(column)} = 'yes' and state = 'failed'
order by exit_miles nulls last, life_id`;
}

export function safetyCases(result: ResultTable): SafetyCase[] {
  const miles = numberColumn(result, 'exit_miles');
  const text = (name: string) => textColumn(result, name);
  return Array.from({ length: result.rows }, (_, row) => ({
    unitId: text('unit_id')[row] ?? 'unknown',
    position: text('position')[row] ?? 'unknown',
    mode: text('mode')[row] ?? 'unknown',
    miles: miles[row] as number,
    endId: text('end_id')[row] ?? 'unknown',
  }));
}
