import type { Statement } from './statement.ts';

/** A column once decoded: numbers with NaN for null, or text with null for null. Booleans come as 0 and 1. */
export type ResultColumn = Float64Array | (string | null)[];

export interface ResultTable {
  readonly rows: number;
  readonly columns: Readonly<Record<string, ResultColumn>>;
}

/**
 * The one door to DuckDB, the same in the browser's worker and in Node. Dates leave as ISO text
 * (cast in SQL), 64-bit sums are cast to DOUBLE in SQL.
 */
export interface Engine {
  /** Runs a statement that answers nothing. */
  run(statement: Statement, signal?: AbortSignal): Promise<void>;
  query(statement: Statement, signal?: AbortSignal): Promise<ResultTable>;
  /**
   * Appends rows to an existing table. Columns are given in the table's order, all of the same
   * length; text columns as (string | null)[], numbers as Float64Array (NaN = null). Numbers go
   * into DOUBLE or INTEGER columns, text into VARCHAR columns.
   * @returns the number of rows appended, checked against the engine's own count
   */
  append(table: string, columns: Readonly<Record<string, ResultColumn>>): Promise<number>;
  close(): Promise<void>;
}

/** A numeric column of a result; throws where the query gave text. */
export function numberColumn(result: ResultTable, name: string): Float64Array {
  const column = result.columns[name];
  if (!(column instanceof Float64Array)) throw new Error(`no numeric column ${name} in the result`);
  return column;
}

/** A text column of a result; throws where the query gave numbers. */
export function textColumn(result: ResultTable, name: string): (string | null)[] {
  const column = result.columns[name];
  if (column === undefined || column instanceof Float64Array) throw new Error(`no text column ${name} in the result`);
  return column;
}
