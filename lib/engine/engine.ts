import type { Statement } from './statement.ts';

/** A column once decoded: numbers with NaN for null, or text with null for null. Booleans come as 0 and 1. */
export type ResultColumn = Float64Array | (string | null)[];

export interface ResultTable {
  readonly rows: number;
  readonly columns: Readonly<Record<string, ResultColumn>>;
}

/** Text as UTF-8, row r being `bytes[offsets[r] … offsets[r + 1])`; `known[r]` = 0 makes it NULL. */
export interface TextBuffer {
  readonly offsets: Int32Array;
  readonly bytes: Uint8Array;
  readonly known: Uint8Array;
}

/** Text of few different words: row r is `words[codes[r] - 1]`, or NULL where the code is 0. */
export interface CodedText {
  readonly codes: Uint8Array;
  readonly words: readonly string[];
}

export type AppendColumn = ResultColumn | TextBuffer | CodedText;

/**
 * The one door to DuckDB, the same in the browser's worker and in Node. One connection, one thing
 * at a time: calls wait for their turn, so no statement ever meets half of another's work.
 *
 * Numeric types (BOOLEAN, every integer, DECIMAL, FLOAT, DOUBLE) come back as doubles; a whole
 * number beyond 2^53 is an error. VARCHAR comes back as text. Every other type (DATE, TIMESTAMP,
 * enumerations, lists …) is an error that asks for a cast in SQL: dates leave as ISO text.
 *
 * Parameters bind as VARCHAR and DOUBLE; where SQL wants a whole number, cast: `limit ?::BIGINT`.
 * An aborted call rejects with the signal's reason and leaves no half-made table.
 */
export interface Engine {
  /** Whether appending goes on beside the caller's own work; where it does not, it is done sooner if waited for. */
  readonly appendsBeside: boolean;
  /** Runs a statement that answers nothing. */
  run(statement: Statement, signal?: AbortSignal): Promise<void>;
  /** Runs statements in one transaction: all of them happen, or none. */
  runTogether(statements: readonly Statement[], signal?: AbortSignal): Promise<void>;
  query(statement: Statement, signal?: AbortSignal): Promise<ResultTable>;
  /**
   * Appends rows to an existing table. Columns are given in the table's order, all of the same
   * length. Float64Array (NaN = null) goes into DOUBLE, INTEGER, BIGINT or DATE (whole days since
   * 1970-01-01) columns, text of any form into VARCHAR columns.
   * @returns the number of rows appended, checked against the engine's own count
   */
  append(table: string, columns: Readonly<Record<string, AppendColumn>>): Promise<number>;
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
