import { lifeStates } from '../../shared/vocabulary.ts';
import { identifier, sql, type Statement } from '../engine/statement.ts';

const stateList = `[${lifeStates.map((state) => `'${state}'`).join(', ')}]`;

/**
 * What the list of lives shows beyond what questions read: the odometer at installation, and the
 * state in full as its place in `lifeStates`, from 0.
 */
export const pageColumnsStatement = (table: string): Statement => sql`
select cast(rowid as integer) as life_row, install_miles,
  cast(list_position(${{ text: stateList, values: [] }}, state) - 1 as integer) as state_code
from ${identifier(table)}`;
