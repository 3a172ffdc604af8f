import { lifeColumns } from '../../../shared/lives.ts';
import { numberColumn, textColumn, type ResultTable } from '../../engine/engine.ts';
import { identifier, sql, type Statement } from '../../engine/statement.ts';

/** A cut column as codes: `levels[codes[row]]` is the label of a life's value, null as `unknown`. */
export interface CutCodes {
  readonly levels: readonly string[];
  readonly codes: Int32Array;
}

const numeric = new Set(lifeColumns.filter(({ kind }) => kind === 'number').map(({ name }) => name));

/** A value as its label: whole numbers without a point, not known as `unknown`. */
export function labelSql(column: string): Statement {
  const name = identifier(column);
  const text =
    numeric.has(column) || column === 'install_year'
      ? sql`cast(cast(${name} as bigint) as varchar)`
      : sql`cast(${name} as varchar)`;
  return sql`coalesce(${text}, 'unknown')`;
}

/** Every label of a cut column, in the order of its codes. */
export const levelsStatement = (table: string, column: string): Statement =>
  sql`select distinct ${labelSql(column)} as label from ${identifier(table)} order by label`;

/** The code of every life's label; text leaves the engine once a label, not once a life. */
export const codesStatement = (table: string, column: string): Statement => sql`
with labelled as (select cast(rowid as integer) as life_row, ${labelSql(column)} as label from ${identifier(table)}),
levels as (select label, row_number() over (order by label) - 1 as code from (select distinct label from labelled))
select life_row, cast(code as integer) as code from labelled join levels using (label)`;

/** Of more lives than this, codes that are kept take no more bytes than their labels need. */
const mostWide = 200_000;

/** A cut column as it is kept. */
export interface KeptCodes {
  readonly levels: readonly string[];
  readonly codes: Int32Array | Uint16Array | Uint8Array;
}

export function narrowed({ levels, codes }: CutCodes): KeptCodes {
  if (codes.length <= mostWide || levels.length > 0x10000) return { levels, codes };
  return { levels, codes: levels.length > 0x100 ? new Uint16Array(codes) : new Uint8Array(codes) };
}

export const widened = ({ levels, codes }: KeptCodes): CutCodes => ({
  levels,
  codes: codes instanceof Int32Array ? codes : new Int32Array(codes),
});

export function readCutCodes(levels: ResultTable, codes: ResultTable): CutCodes {
  const [row, code] = [numberColumn(codes, 'life_row'), numberColumn(codes, 'code')];
  const found = new Int32Array(codes.rows);
  for (let place = 0; place < codes.rows; place++) found[row[place] as number] = code[place] as number;
  return { levels: textColumn(levels, 'label').map((label) => label ?? 'unknown'), codes: found };
}
