import type { RecordColumn } from '../../shared/record-tables.ts';
import type { AppendColumn } from '../engine/engine.ts';
import type { CellColumn } from './cell-column.ts';
import type { CellText } from './cell-text.ts';
import { dayIn } from './date-cell.ts';
import { ListCells } from './list-cells.ts';
import { fits, numberIn } from './number-cell.ts';
import { TextCells } from './text-cells.ts';
import { WordIndex } from './word-index.ts';

/** The reader of a column by its kind; `capacity` in rows. */
export function cellColumnOf(column: RecordColumn, capacity: number): CellColumn {
  switch (column.kind) {
    case 'text':
      return new TextCells(capacity);
    case 'list':
      return new ListCells(column, capacity);
    case 'choice':
      return new ChoiceCells(column.choices ?? [], capacity);
    case 'date':
      return new NumericCells(capacity, dayIn, () => true);
    case 'number':
    case 'integer':
      return new NumericCells(capacity, numberIn, (value) => fits(value, column));
  }
}

/** A column that a file does not have. */
export function absentColumn({ kind }: RecordColumn, rows: number): AppendColumn {
  if (kind === 'text' || kind === 'list' || kind === 'choice') return { codes: new Uint8Array(rows), words: [] };
  return new Float64Array(rows).fill(NaN);
}

class NumericCells implements CellColumn {
  #values: Float64Array;

  constructor(
    private capacity: number,
    private readonly read: (bytes: Uint8Array, start: number, end: number) => number,
    private readonly accepts: (value: number) => boolean,
  ) {
    this.#values = new Float64Array(capacity);
  }

  widen(capacity: number): void {
    const values = this.#values;
    this.capacity = capacity;
    this.#values = new Float64Array(capacity);
    this.#values.set(values);
  }

  write(row: number, { bytes, start, end }: CellText): boolean {
    const value = this.read(bytes, start, end);
    this.#values[row] = value;
    return value === value && this.accepts(value);
  }

  blank(row: number): void {
    this.#values[row] = NaN;
  }

  taken(rows: number): AppendColumn {
    const values = this.#values.subarray(0, rows);
    this.#values = new Float64Array(this.capacity);
    return values;
  }
}

class ChoiceCells implements CellColumn {
  readonly #words: WordIndex;
  #codes: Uint8Array;

  constructor(
    words: readonly string[],
    private capacity: number,
  ) {
    this.#words = new WordIndex(words);
    this.#codes = new Uint8Array(capacity);
  }

  widen(capacity: number): void {
    const codes = this.#codes;
    this.capacity = capacity;
    this.#codes = new Uint8Array(capacity);
    this.#codes.set(codes);
  }

  write(row: number, { bytes, start, end }: CellText): boolean {
    const code = this.#words.codeOf(bytes, start, end);
    this.#codes[row] = code;
    return code !== 0;
  }

  blank(row: number): void {
    this.#codes[row] = 0;
  }

  taken(rows: number): AppendColumn {
    const codes = this.#codes.subarray(0, rows);
    this.#codes = new Uint8Array(this.capacity);
    return { codes, words: this.#words.words };
  }
}
