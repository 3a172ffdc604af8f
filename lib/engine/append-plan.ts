import type { AppendColumn, CodedText, TextBuffer } from './engine.ts';
import { sql, type Statement } from './statement.ts';
import { textBuffer } from './text-buffer.ts';

export const numberTypes = ['DOUBLE', 'INTEGER', 'BIGINT', 'DATE'] as const;
export type NumberType = (typeof numberTypes)[number];

/** A column ready for either engine: its type in the table, and its values in one of three forms. */
export type PlannedColumn =
  | { readonly name: string; readonly type: NumberType; readonly numbers: Float64Array }
  | { readonly name: string; readonly type: 'VARCHAR'; readonly text: TextBuffer }
  | { readonly name: string; readonly type: 'VARCHAR'; readonly coded: CodedText };

export interface AppendPlan {
  readonly rows: number;
  readonly columns: readonly PlannedColumn[];
}

/** Asks for a table's columns as `name, type`, in order. */
export const columnsOfTable = (table: string): Statement =>
  sql`select column_name as name, data_type as type from duckdb_columns()
      where table_name = ${table} and not internal order by column_index`;

/** Columns checked against the table they go into: same names in the same order, same length, fitting kinds. */
export function planAppend(
  table: string,
  tableColumns: readonly (readonly [name: string, type: string])[],
  columns: Readonly<Record<string, AppendColumn>>,
): AppendPlan {
  const given = Object.keys(columns).join(', ');
  const wanted = tableColumns.map(([name]) => name).join(', ');
  if (tableColumns.length === 0) throw new Error(`no table ${table} to append to`);
  if (given !== wanted) throw new Error(`table ${table} has the columns ${wanted}; given were ${given}`);
  const lengths = new Set(Object.values(columns).map(lengthOf));
  if (lengths.size !== 1) throw new Error(`columns for ${table} differ in length: ${[...lengths].join(', ')}`);
  const planned = tableColumns.map(([name, type]) => plannedColumn(name, type, columns[name]));
  return { rows: [...lengths][0] ?? 0, columns: planned };
}

function lengthOf(column: AppendColumn): number {
  if (column instanceof Float64Array || Array.isArray(column)) return column.length;
  return 'codes' in column ? column.codes.length : column.known.length;
}

function plannedColumn(name: string, type: string, column: AppendColumn | undefined): PlannedColumn {
  const numberType = numberTypes.find((candidate) => candidate === type);
  if (column instanceof Float64Array && numberType) {
    if (numberType !== 'DOUBLE') refuseFractions(name, numberType, column);
    return { name, type: numberType, numbers: column };
  }
  if (column !== undefined && !(column instanceof Float64Array) && type === 'VARCHAR') {
    if (Array.isArray(column)) return { name, type, text: textBuffer(column) };
    return 'codes' in column ? { name, type, coded: column } : { name, type, text: column };
  }
  throw new Error(
    `column ${name} is ${type}; ${column instanceof Float64Array ? 'numbers' : 'text'} cannot go into it`,
  );
}

/** A typed array would cut a fraction and wrap what is too large, silently. */
function refuseFractions(name: string, type: NumberType, numbers: Float64Array): void {
  const limit = type === 'BIGINT' ? Number.MAX_SAFE_INTEGER : 2 ** 31 - 1;
  // By hand: calling a function for each number takes five times as long.
  for (let row = 0; row < numbers.length; row++) {
    const value = numbers[row]!;
    if (Math.trunc(value) === value && value <= limit && value >= -limit) continue;
    if (value === value) throw new Error(`column ${name} is ${type}; ${value} does not fit`);
  }
}
