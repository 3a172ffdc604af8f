import type { AppendColumn } from '../engine/engine.ts';
import type { CellText } from './cell-text.ts';

/** The cells of one column for a batch of rows, in the form in which the engine takes them. */
export interface CellColumn {
  /** Reads a cell that is not blank into a row; false where it is nothing this column can mean. */
  write(row: number, cell: CellText): boolean;
  blank(row: number): void;
  /** Makes room for so many rows, those written so far staying. */
  widen(capacity: number): void;
  /** Gives the first rows up, to stand until the next time, and begins again with none. */
  taken(rows: number): AppendColumn;
  /** Bytes that the rows before `row` take, more or less. */
  bytesBefore(row: number): number;
}
