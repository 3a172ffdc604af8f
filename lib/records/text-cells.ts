import type { TextBuffer } from '../engine/engine.ts';
import type { CellColumn } from './cell-column.ts';
import type { CellText } from './cell-text.ts';
import { RowRoom } from './row-room.ts';

/** Cells kept as they are, in UTF-8. A row written again takes the place of the one before. */
export class TextCells implements CellColumn {
  readonly #bytes = new RowRoom(Uint8Array, 2 ** 12);
  readonly #offsets: RowRoom<Int32Array>;
  readonly #known: RowRoom<Uint8Array>;

  constructor(capacity: number) {
    this.#offsets = new RowRoom(Int32Array, capacity + 1);
    this.#known = new RowRoom(Uint8Array, capacity);
  }

  widen(capacity: number): void {
    this.#offsets.widen(capacity + 1);
    this.#known.widen(capacity);
  }

  write(row: number, { bytes, start, end }: CellText): boolean {
    this.begin(row);
    return this.put(row, bytes, start, end);
  }

  blank(row: number): void {
    const offsets = this.#offsets.values;
    this.#known.values[row] = 0;
    offsets[row + 1] = offsets[row]!;
  }

  taken(rows: number): TextBuffer {
    const offsets = this.#offsets.taken();
    return {
      offsets: offsets.subarray(0, rows + 1),
      bytes: this.#bytes.taken().subarray(0, offsets[rows]),
      known: this.#known.taken().subarray(0, rows),
    };
  }

  bytesBefore(row: number): number {
    return this.#offsets.values[row]!;
  }

  /** What was written into a row; null where it is blank. */
  textAt(row: number): Uint8Array | null {
    const offsets = this.#offsets.values;
    return this.#known.values[row] === 0 ? null : this.#bytes.values.subarray(offsets[row], offsets[row + 1]);
  }

  /** Empties a row, to be filled by `put`. */
  protected begin(row: number): void {
    const offsets = this.#offsets.values;
    this.#known.values[row] = 1;
    offsets[row + 1] = offsets[row]!;
  }

  /** Adds to the row begun; false if a byte of zero is among what is added. */
  protected put(row: number, bytes: Uint8Array, start: number, end: number): boolean {
    const offsets = this.#offsets.values;
    let to = offsets[row + 1]!;
    const needed = to + end - start;
    if (needed > this.#bytes.values.length) this.#bytes.widen(Math.max(needed, this.#bytes.values.length * 2));
    const own = this.#bytes.values;
    let clean = true;
    for (let at = start; at < end; at++) {
      const byte = bytes[at]!;
      if (byte === 0) clean = false;
      own[to++] = byte;
    }
    offsets[row + 1] = to;
    return clean;
  }
}
