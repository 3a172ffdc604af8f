import type { Component } from '../../shared/vocabulary.ts';
import type { View } from '../../shared/view.ts';
import { numberColumn, type ResultTable } from '../engine/engine.ts';
import { identifier, sql, type Statement } from '../engine/statement.ts';
import { livesTable } from '../lives/index.ts';
import { groupCode, labelColumns, type GroupKeys } from './group-keys.ts';
import { scopeSql } from './scope.ts';

/** How a life ended, as a cause code of competing risks: 0 is censored. */
export const ended = { running: 0, failed: 1, renewed: 2, removedUnknown: 3 } as const;

const leakAt: Readonly<Record<Component, Statement | null>> = {
  seal: sql`coalesce(i.leak_at, 'unknown') in ('inboard', 'unknown')`,
  gasket: sql`i.leak_at in ('hubcap', 'flange')`,
  bearing: null,
};

/**
 * Age at the first leak of 2 or more that an inspection saw in a life which no failure ended; only
 * where inspections stand behind the lives. Other tables have no such rows and give no such column.
 */
function seenLeaks(component: Component): Statement {
  const where = leakAt[component];
  if (!where) return sql`seen as (select null as life_id, null as seen_at where false)`;
  return sql`seen as (
  select s.life_id, min(i.at_miles) as seen_at from scoped s join work_placed_inspections i
  on i.wheel_end = s.wheel_end and i.at_miles > s.observed_from_miles and i.at_miles <= s.observed_to_miles
  where s.state <> 'failed' and i.checked = 'yes' and i.leak >= 2 and ${where} group by s.life_id
)`;
}

/**
 * The columns a life curve needs, one row a life, groups and vehicles as codes: text never leaves
 * the engine a row at a time.
 */
export function lifeRowsStatement(view: View, fromRecords: boolean): Statement {
  const failed = view.mode === null ? sql`1` : sql`case when mode = ${view.mode} then 1 else 2 end`;
  const cut = view.by.length > 0 ? sql`, ${labelColumns(view)}` : sql``;
  return sql`
with scoped as (
  select *${cut} from ${identifier(livesTable(view.component))} where ${scopeSql(view)}
)${fromRecords ? sql`, ${seenLeaks(view.component)}` : sql``}
select cast(${groupCode(view)} as integer) as cut_group,
  cast(dense_rank() over (order by unit_id) - 1 as integer) as unit,
  case when install_known then coalesce(entry_miles, 0) end as entry_miles, exit_miles, exposure_miles, onset_lower_miles,
  case state when 'failed' then ${failed} when 'planned' then 2 when 'other-failure' then 2 when 'removed-unknown' then 3 else 0 end as ended,
  cast(coalesce(mileage_quality in ('interpolated', 'extrapolated'), false) as integer) as estimated,
  cast(coalesce(inferred in ('end', 'both') and state = 'failed', false) as integer) as inferred,
  ${fromRecords ? sql`seen_at - install_miles` : sql`cast(null as double)`} as seen_leak_miles
from scoped ${fromRecords ? sql`left join seen using (life_id)` : sql``}`;
}

/** Lives behind the curves and beside them. Columns of equal length; ages in miles since installation. */
export interface LifeRows {
  readonly rows: number;
  /** Index into the groups shown. */
  readonly group: Int32Array;
  readonly unit: Int32Array;
  /** NaN where the start is not known. */
  readonly entry: Float64Array;
  readonly exit: Float64Array;
  readonly exposure: Float64Array;
  /** Age at the last clean check of a life, NaN where none is told. */
  readonly onsetLower: Float64Array;
  /** A code of `ended`. */
  readonly ended: Uint8Array;
  readonly estimated: Uint8Array;
  readonly inferred: Uint8Array;
  /** Age at a leak that an inspection saw and no failure row tells of; NaN where there is none. */
  readonly seenLeak: Float64Array;
}

/** Rows of the groups shown. */
export function readLifeRows(result: ResultTable, keys: GroupKeys): LifeRows {
  const code = numberColumn(result, 'cut_group');
  const kept = new Int32Array(result.rows);
  let rows = 0;
  for (let row = 0; row < result.rows; row++) if ((keys.ofCode[code[row] as number] ?? -1) >= 0) kept[rows++] = row;
  const all = rows === result.rows;
  const numbers = (name: string): Float64Array => {
    const column = numberColumn(result, name);
    return all ? column : Float64Array.from({ length: rows }, (_, place) => column[kept[place] as number] as number);
  };
  return {
    rows,
    group: Int32Array.from(
      { length: rows },
      (_, place) => keys.ofCode[code[kept[place] as number] as number] as number,
    ),
    unit: Int32Array.from(numbers('unit')),
    entry: numbers('entry_miles'),
    exit: numbers('exit_miles'),
    exposure: numbers('exposure_miles'),
    onsetLower: numbers('onset_lower_miles'),
    ended: Uint8Array.from(numbers('ended')),
    estimated: Uint8Array.from(numbers('estimated')),
    inferred: Uint8Array.from(numbers('inferred')),
    seenLeak: numbers('seen_leak_miles'),
  };
}
