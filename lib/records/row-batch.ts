import { recordTables, type RecordColumn, type TableName } from '../../shared/record-tables.ts';
import type { AppendColumn } from '../engine/engine.ts';
import type { CellColumn } from './cell-column.ts';
import { absentColumn, cellColumnOf } from './cell-column-of.ts';
import { CellText } from './cell-text.ts';
import type { CutRow } from './cut-row.ts';
import type { Header } from './header.ts';
import { TextCells } from './text-cells.ts';

/** Rows go to the engine this many at a time, or sooner where their text is long. */
export const batchRows = 2 ** 16;
const batchTextBytes = 2 ** 24;

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
  #lines = new Float64Array(batchRows);

  constructor(
    private readonly table: TableName,
    private readonly fileId: number,
    { columns }: Header,
  ) {
    this.#readings = columns.map(({ column, cell }) => ({ column, cell, cells: cellColumnOf(column, batchRows) }));
  }

  /** Adds a row, or gives the first of its columns that cannot be read, with its place in the file. */
  write(row: CutRow, line: number): { readonly column: RecordColumn; readonly cell: number } | null {
    const text = this.#text;
    for (let index = 0; index < this.#readings.length; index++) {
      const reading = this.#readings[index]!;
      const readable = row.cell(reading.cell, text);
      if (index === 0) Object.assign(this.first, { bytes: text.bytes, start: text.start, end: text.end });
      if (!readable) return reading;
      if (!text.blank) {
        if (!reading.cells.write(this.rows, text)) return reading;
      } else if (reading.column.required) return reading;
      else reading.cells.blank(this.rows);
    }
    this.#lines[this.rows++] = line;
    return null;
  }

  get full(): boolean {
    if (this.rows === batchRows) return true;
    // Looked at now and then only: it takes a walk over all columns.
    return this.rows % 1024 === 0 && this.#textBytes() > batchTextBytes;
  }

  /** Gives the rows in the table's order of columns and begins again with none. */
  taken(): Record<string, AppendColumn> {
    const rows = this.rows;
    const columns = recordTables[this.table].map((column): [string, AppendColumn] => {
      const reading = this.#readings.find(({ column: { name } }) => name === column.name);
      return [column.name, reading ? reading.cells.taken(rows) : absentColumn(column, rows)];
    });
    const line = this.#lines.subarray(0, rows);
    this.#lines = new Float64Array(batchRows);
    this.rows = 0;
    return { ...Object.fromEntries(columns), file_id: new Float64Array(rows).fill(this.fileId), line };
  }

  #textBytes(): number {
    return this.#readings.reduce(
      (bytes, { cells }) => bytes + (cells instanceof TextCells ? cells.sizeBefore(this.rows) : 0),
      0,
    );
  }
}
