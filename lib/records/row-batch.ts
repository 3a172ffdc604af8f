import type { RecordColumn } from '../../shared/record-tables.ts';
import type { AppendColumn } from '../engine/engine.ts';
import type { CellColumn } from './cell-column.ts';
import { cellColumnOf } from './cell-column-of.ts';
import { CellText } from './cell-text.ts';
import type { CutRow } from './cut-row.ts';
import type { Header } from './header.ts';
import { RowRoom } from './row-room.ts';

/**
 * Rows go to the engine this many at a time, or sooner where their text is long. It is the size of
 * DuckDB's row groups: smaller batches are copied once more when they are committed.
 */
export const batchRows = 122_880;
const batchBytes = 2 ** 26;
/** Most files are small: room for more is made as rows come. */
const firstRows = 960;

/** The columns that the file has, and where each row comes from. */
export interface BatchColumns extends Record<string, AppendColumn> {
  readonly file_id: Float64Array;
  readonly line: Float64Array;
}

interface Reading {
  readonly column: RecordColumn;
  readonly cell: number;
  readonly cells: CellColumn;
}

/** Rows of one file on their way to their table. */
export class RowBatch {
  rows = 0;
  /** Text of the first column of the row last written: the id, in every table that has one. */
  readonly first = new CellText();
  readonly #readings: readonly Reading[];
  readonly #text = new CellText();
  #capacity = firstRows;
  readonly #lines = new RowRoom(Float64Array, firstRows);

  constructor(
    private readonly fileId: number,
    { columns }: Header,
  ) {
    this.#readings = columns.map(({ column, cell }) => ({ column, cell, cells: cellColumnOf(column, firstRows) }));
  }

  /** Adds a row, or gives the first of its columns that cannot be read, with its place in the file. */
  write(row: CutRow, line: number): { readonly column: RecordColumn; readonly cell: number } | null {
    const text = this.#text;
    if (this.rows === this.#capacity) this.#widen();
    for (let index = 0; index < this.#readings.length; index++) {
      const reading = this.#readings[index]!;
      const readable = row.cell(reading.cell, text);
      if (index === 0) this.first.copy(text);
      if (!readable) return reading;
      if (!text.blank) {
        if (!reading.cells.write(this.rows, text)) return reading;
      } else if (reading.column.required) return reading;
      else reading.cells.blank(this.rows);
    }
    this.#lines.values[this.rows++] = line;
    return null;
  }

  get full(): boolean {
    if (this.rows === batchRows) return true;
    // Looked at now and then only: it takes a walk over all columns.
    return this.rows % 1024 === 0 && this.#bytes() > batchBytes;
  }

  /** Gives the rows, which stand until the next time, and begins again with none. */
  taken(): BatchColumns {
    const rows = this.rows;
    const line = this.#lines.taken().subarray(0, rows);
    this.rows = 0;
    const columns = this.#readings.map(({ column, cells }): [string, AppendColumn] => [column.name, cells.taken(rows)]);
    return { ...Object.fromEntries(columns), file_id: new Float64Array(rows).fill(this.fileId), line };
  }

  #widen(): void {
    this.#capacity *= 2;
    this.#lines.widen(this.#capacity);
    for (const { cells } of this.#readings) cells.widen(this.#capacity);
  }

  #bytes(): number {
    return this.#readings.reduce((bytes, { cells }) => bytes + cells.bytesBefore(this.rows), 0);
  }
}
