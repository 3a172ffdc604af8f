import { numberColumn, type ResultTable } from '../../engine/engine.ts';
import { sql, type Statement } from '../../engine/statement.ts';
import { modeCodeSql } from './life-columns.ts';

/** Every failure episode found in the exposure of a seal life, with the age of the life when it was found. */
export const outcomesStatement: Statement = sql`
select cast(l.rowid as integer) as life_row, ${modeCodeSql} as mode_code,
  case e.lining_contaminated when 'yes' then 1 when 'no' then 2 else 0 end as lining,
  coalesce(e.miles - l.install_miles, l.exit_miles) as age_miles,
  coalesce(date_diff('day', l.install_date, e.date) / 30.4375, l.exit_months) as age_months
from (select life_id, mode, lining_contaminated, miles, date from episodes) e
join (select life_id, rowid, install_miles, exit_miles, install_date, exit_months from lives_seal) l using (life_id)`;

/** Columns of equal length, one place an episode. */
export interface OutcomeColumns {
  readonly rows: number;
  /** Place of the life. */
  readonly life: Int32Array;
  readonly mode: Uint8Array;
  /** A code of `lining`. */
  readonly lining: Uint8Array;
  /** Since installation; NaN where it cannot be told. */
  readonly age: { readonly miles: Float64Array; readonly months: Float64Array };
}

export const readOutcomes = (result: ResultTable): OutcomeColumns => ({
  rows: result.rows,
  life: Int32Array.from(numberColumn(result, 'life_row')),
  mode: Uint8Array.from(numberColumn(result, 'mode_code')),
  lining: Uint8Array.from(numberColumn(result, 'lining')),
  age: {
    miles: Float64Array.from(numberColumn(result, 'age_miles')),
    months: Float64Array.from(numberColumn(result, 'age_months')),
  },
});
