import type { RecordColumn } from '../../shared/record-tables.ts';
import type { AppendColumn } from '../engine/engine.ts';
import type { CellColumn } from './cell-column.ts';
import type { CellText } from './cell-text.ts';
import { dayIn } from './date-cell.ts';
import { fits, numberIn } from './number-cell.ts';
import { RowRoom } from './row-room.ts';

/** Cells that are kept as numbers, NaN being blank. */
abstract class NumericCells implements CellColumn {
  readonly #room: RowRoom<Float64Array>;

  constructor(capacity: number) {
    this.#room = new RowRoom(Float64Array, capacity);
  }

  abstract write(row: number, cell: CellText): boolean;

  widen(capacity: number): void {
    this.#room.widen(capacity);
  }

  blank(row: number): void {
    this.#room.values[row] = NaN;
  }

  taken(rows: number): AppendColumn {
    return this.#room.taken().subarray(0, rows);
  }

  bytesBefore(row: number): number {
    return row * 8;
  }

  /** Puts a number into a row; false where it is none. */
  protected put(row: number, value: number): boolean {
    this.#room.values[row] = value;
    return value === value;
  }
}

export class DateCells extends NumericCells {
  override write(row: number, { bytes, start, end }: CellText): boolean {
    return this.put(row, dayIn(bytes, start, end));
  }
}

export class NumberCells extends NumericCells {
  constructor(
    capacity: number,
    private readonly column: RecordColumn,
  ) {
    super(capacity);
  }

  override write(row: number, { bytes, start, end }: CellText): boolean {
    const value = numberIn(bytes, start, end);
    return fits(value, this.column) && this.put(row, value);
  }
}
