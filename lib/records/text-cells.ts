import type { TextBuffer } from '../engine/engine.ts';
import type { CellColumn } from './cell-column.ts';
import type { CellText } from './cell-text.ts';

/** Cells kept as they are, in UTF-8. A row written again takes the place of the one before. */
export class TextCells implements CellColumn {
  #bytes = new Uint8Array(2 ** 12);
  #offsets: Int32Array;
  #known: Uint8Array;

  constructor(private capacity: number) {
    this.#offsets = new Int32Array(capacity + 1);
    this.#known = new Uint8Array(capacity);
  }

  widen(capacity: number): void {
    const [offsets, known] = [this.#offsets, this.#known];
    this.capacity = capacity;
    this.#offsets = new Int32Array(capacity + 1);
    this.#known = new Uint8Array(capacity);
    this.#offsets.set(offsets);
    this.#known.set(known);
  }

  write(row: number, { bytes, start, end }: CellText): boolean {
    this.begin(row);
    return this.put(row, bytes, start, end);
  }

  blank(row: number): void {
    this.#known[row] = 0;
    this.#offsets[row + 1] = this.#offsets[row]!;
  }

  taken(rows: number): TextBuffer {
    const taken = {
      offsets: this.#offsets.subarray(0, rows + 1),
      bytes: this.#bytes.subarray(0, this.#offsets[rows]),
      known: this.#known.subarray(0, rows),
    };
    this.#bytes = new Uint8Array(this.#bytes.length);
    this.#offsets = new Int32Array(this.capacity + 1);
    this.#known = new Uint8Array(this.capacity);
    return taken;
  }

  /** Bytes held by the rows before `row`. */
  sizeBefore(row: number): number {
    return this.#offsets[row]!;
  }

  /** Empties a row, to be filled by `put`. */
  protected begin(row: number): void {
    this.#known[row] = 1;
    this.#offsets[row + 1] = this.#offsets[row]!;
  }

  /** Adds to the row begun; false if a byte of zero is among what is added. */
  protected put(row: number, bytes: Uint8Array, start: number, end: number): boolean {
    let to = this.#offsets[row + 1]!;
    if (to + end - start > this.#bytes.length) this.#grow(to + end - start);
    const own = this.#bytes;
    let clean = true;
    for (let at = start; at < end; at++) {
      const byte = bytes[at]!;
      if (byte === 0) clean = false;
      own[to++] = byte;
    }
    this.#offsets[row + 1] = to;
    return clean;
  }

  #grow(needed: number): void {
    const larger = new Uint8Array(Math.max(needed, this.#bytes.length * 2));
    larger.set(this.#bytes);
    this.#bytes = larger;
  }
}
