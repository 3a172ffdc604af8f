import type { Axis } from '../../../shared/view.ts';
import { failureModes } from '../../../shared/vocabulary.ts';
import { numberColumn, type ResultTable } from '../../engine/engine.ts';
import { identifier, sql, type Statement } from '../../engine/statement.ts';

/** States as the questions tell them apart; all but failed end a life without its failure. */
export const states = { running: 0, failed: 1, renewed: 2, removedUnknown: 3 } as const;

/** Code of a failure mode: its place in the vocabulary, from 1; 0 where there is none. */
export const modeCode = (mode: (typeof failureModes)[number]): number => failureModes.indexOf(mode) + 1;

/** SQL text of `modeCode`, of our own words. */
export const modeCodeSql: Statement = {
  text: `coalesce(list_position([${failureModes.map((mode) => `'${mode}'`).join(', ')}], mode), 0)`,
  values: [],
};

/** The numbers of every life of a component, once: codes in place of words, ages in miles since installation. */
export const lifeColumnsStatement = (table: string): Statement => sql`
select cast(rowid as integer) as life_row,
  case when install_known then coalesce(entry_miles, 0) end as entry_miles, exit_miles, exposure_miles, onset_lower_miles,
  entry_months, exit_months, exposure_months, onset_lower_months,
  case state when 'failed' then 1 when 'planned' then 2 when 'other-failure' then 2 when 'removed-unknown' then 3 else 0 end as state_code,
  ${modeCodeSql} as mode_code,
  cast(coalesce(mileage_quality = 'extrapolated', false) as integer) as extrapolated,
  cast(coalesce(mileage_quality in ('interpolated', 'extrapolated'), false) as integer) as estimated,
  cast(coalesce(inferred in ('end', 'both') and state = 'failed', false) as integer) as inferred,
  cast(coalesce(install_kind, 'replacement') = 'replacement' as integer) as replacement,
  cast(date_diff('day', date '1970-01-01', install_date) as integer) as install_day
from ${identifier(table)}`;

/** Ages since installation, and what was watched, in miles or in months. */
export interface Ages {
  /** NaN where the start is not known. */
  readonly entry: Float64Array;
  readonly exit: Float64Array;
  readonly exposure: Float64Array;
  /** Age at the last clean check; NaN where none is told. */
  readonly onsetLower: Float64Array;
}

/** Columns of equal length, one place a life, in the order of the lives table; its own ages are miles. */
export interface LifeColumns extends Ages {
  readonly rows: number;
  /** NaN throughout where a lives table that was opened has none. */
  readonly months: Ages;
  /** A code of `states`. */
  readonly state: Uint8Array;
  readonly mode: Uint8Array;
  /** Miles worked out from other readings; of these, carried on beyond them or taken from like units. */
  readonly estimated: Uint8Array;
  readonly extrapolated: Uint8Array;
  readonly inferred: Uint8Array;
  readonly replacement: Uint8Array;
  /** Days since 1970-01-01; NaN where not known. */
  readonly installDay: Float64Array;
}

export function readLifeColumns(result: ResultTable): LifeColumns {
  const place = numberColumn(result, 'life_row');
  const numbers = (name: string): Float64Array => {
    const column = numberColumn(result, name);
    const ordered = new Float64Array(result.rows);
    for (let row = 0; row < result.rows; row++) ordered[place[row] as number] = column[row] as number;
    return ordered;
  };
  const codes = (name: string) => Uint8Array.from(numbers(name));
  return {
    rows: result.rows,
    entry: numbers('entry_miles'),
    exit: numbers('exit_miles'),
    exposure: numbers('exposure_miles'),
    onsetLower: numbers('onset_lower_miles'),
    months: {
      ...{ entry: numbers('entry_months'), exit: numbers('exit_months') },
      ...{ exposure: numbers('exposure_months'), onsetLower: numbers('onset_lower_months') },
    },
    state: codes('state_code'),
    mode: codes('mode_code'),
    estimated: codes('estimated'),
    extrapolated: codes('extrapolated'),
    inferred: codes('inferred'),
    replacement: codes('replacement'),
    installDay: numbers('install_day'),
  };
}

/** The ages a view asks for. */
export const agesOf = (columns: LifeColumns, axis: Axis): Ages => (axis === 'months' ? columns.months : columns);
