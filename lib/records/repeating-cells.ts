import type { AppendColumn } from '../engine/engine.ts';
import type { CellColumn } from './cell-column.ts';
import { CellText, shownText } from './cell-text.ts';
import { RowRoom } from './row-room.ts';
import { SpelledWords } from './spelled-words.ts';
import type { TextCells } from './text-cells.ts';

/** Codes are one byte, 0 being blank. */
const mostWords = 255;

/**
 * Text of which a fleet mostly writes the same few words: kept as their codes, for as long as they are few,
 * from then on as `plain` keeps it. What was written once is known by its bytes and not read again.
 */
export class RepeatingCells implements CellColumn {
  readonly #spelled = new SpelledWords();
  readonly #words: string[] = [];
  readonly #codes: RowRoom<Uint8Array>;
  #few = true;

  constructor(
    private readonly plain: TextCells,
    capacity: number,
  ) {
    this.#codes = new RowRoom(Uint8Array, capacity);
  }

  widen(capacity: number): void {
    this.#codes.widen(capacity);
    if (!this.#few) this.plain.widen(capacity);
  }

  write(row: number, cell: CellText): boolean {
    if (!this.#few) return this.plain.write(row, cell);
    const code = this.#spelled.codeOf(cell.bytes, cell.start, cell.end);
    if (code === 0) return this.#read(row, cell);
    this.#codes.values[row] = code;
    return true;
  }

  blank(row: number): void {
    if (this.#few) this.#codes.values[row] = 0;
    else this.plain.blank(row);
  }

  taken(rows: number): AppendColumn {
    if (!this.#few) return this.plain.taken(rows);
    return { codes: this.#codes.taken().subarray(0, rows), words: [...this.#words] };
  }

  bytesBefore(row: number): number {
    return this.#few ? row : this.plain.bytesBefore(row);
  }

  /** Reads a cell that is spelled like none before. */
  #read(row: number, cell: CellText): boolean {
    // The plain column is empty as yet, and tells what the cell comes to.
    if (!this.plain.write(0, cell)) return false;
    const bytes = this.plain.textAt(0);
    if (bytes === null) {
      this.#codes.values[row] = 0;
      return true;
    }
    const word = shownText(bytes);
    const known = this.#words.indexOf(word) + 1;
    const code = known === 0 ? this.#words.length + 1 : known;
    if (code <= mostWords && this.#spelled.learn(cell.bytes, cell.start, cell.end, code)) {
      if (known === 0) this.#words.push(word);
      this.#codes.values[row] = code;
      return true;
    }
    this.#giveUp(row);
    return this.plain.write(row, cell);
  }

  /** Writes the rows so far, of which there are `rows`, as the plain column keeps them. */
  #giveUp(rows: number): void {
    this.plain.widen(this.#codes.values.length);
    const texts = this.#words.map((word) => CellText.of(word));
    for (let row = 0; row < rows; row++) {
      const text = texts[this.#codes.values[row]! - 1];
      if (text) this.plain.write(row, text);
      else this.plain.blank(row);
    }
    this.#few = false;
  }
}
