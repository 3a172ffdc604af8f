import type { Component } from '../../shared/vocabulary.ts';
import type { View } from '../../shared/view.ts';
import { numberColumn, textColumn, type ResultTable } from '../engine/engine.ts';
import { identifier, joinSql, sql, type Statement } from '../engine/statement.ts';
import { livesTable } from '../lives/index.ts';
import { run, type Asking } from './asking.ts';
import type { AskedLives } from './columns/asked-lives.ts';
import { states } from './columns/life-columns.ts';
import { isSafetyCritical } from './comparison.ts';
import { firmnessRule } from './firmness.ts';
import type { Scope } from './scope.ts';
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

/** What leads back to the records of some lives, by their places in the lives table. */
export const casesStatement = (component: Component, rows: readonly number[]): Statement => sql`
select unit_id, coalesce(position, 'unknown') as position, coalesce(mode, 'unknown') as mode, exit_miles, coalesce(end_id, life_id) as end_id
from ${identifier(livesTable(component))} where rowid in (${joinSql(
  rows.map((row) => sql`${row}`),
  ', ',
)}) order by exit_miles nulls last, life_id`;

/**
 * Every failed case of a safety-critical deviation, where there are too few to lean on a number;
 * null where the view is not cut by one, or there are enough.
 */
export async function safetyCases(
  asking: Asking,
  lives: AskedLives,
  scope: Scope,
  component: Component,
): Promise<readonly SafetyCase[] | null> {
  const column = criticalColumn(asking.view);
  if (column === null) return null;
  const { state } = await lives.columns(asking.signal);
  const cases = [...scope.rows].filter((row, at) => {
    const carries = scope.keys.groups[scope.group[at] as number]?.by[column] === 'yes';
    return carries && state[row] === states.failed;
  });
  if (cases.length >= firmnessRule.fairFailures) return null;
  return cases.length === 0 ? [] : readCases(await run(asking, casesStatement(component, cases)));
}

export function readCases(result: ResultTable): SafetyCase[] {
  const miles = numberColumn(result, 'exit_miles');
  const text = (name: string, row: number) => textColumn(result, name)[row] ?? 'unknown';
  return Array.from({ length: result.rows }, (_, row) => ({
    ...{ unitId: text('unit_id', row), position: text('position', row), mode: text('mode', row) },
    ...{ miles: miles[row] as number, endId: text('end_id', row) },
  }));
}
