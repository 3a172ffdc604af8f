import { numberColumn, type ResultTable } from '../../engine/engine.ts';
import { sql, type Statement } from '../../engine/statement.ts';
import { modeCodeSql } from './life-columns.ts';

/** What a failure report says of the lining. */
export const lining = { unknown: 0, soaked: 1, clean: 2 } as const;

/** Every failure episode with the seal life in whose exposure it was found. */
export const episodesStatement: Statement = sql`
with coded as (
  select life_id, ${modeCodeSql} as mode_code,
    case lining_contaminated when 'yes' then 1 when 'no' then 2 else 0 end as lining,
    cast(coalesce(inferred, false) as integer) as inferred
  from episodes
), lives as (select life_id, cast(rowid as integer) as life_row from lives_seal)
select life_row, mode_code, lining, inferred from coded left join lives using (life_id)`;

/** Columns of equal length, one place an episode. */
export interface EpisodeColumns {
  readonly rows: number;
  /** Place of the life; −1 where no exposure stands behind the episode. */
  readonly life: Int32Array;
  readonly mode: Uint8Array;
  /** A code of `lining`. */
  readonly lining: Uint8Array;
  readonly inferred: Uint8Array;
}

export function readEpisodes(result: ResultTable): EpisodeColumns {
  const codes = (name: string) => Uint8Array.from(numberColumn(result, name));
  return {
    rows: result.rows,
    life: Int32Array.from(numberColumn(result, 'life_row'), (row) => (Number.isNaN(row) ? -1 : row)),
    mode: codes('mode_code'),
    lining: codes('lining'),
    inferred: codes('inferred'),
  };
}
