import type { AppendColumn } from '../engine/engine.ts';
import type { CellColumn } from './cell-column.ts';
import type { CellText } from './cell-text.ts';
import { RowRoom } from './row-room.ts';
import { SpelledWords } from './spelled-words.ts';
import { WordIndex } from './word-index.ts';

/** Cells that hold one word of a closed vocabulary, or are blank. */
export class ChoiceCells implements CellColumn {
  readonly #words: WordIndex;
  readonly #spelled = new SpelledWords();
  readonly #codes: RowRoom<Uint8Array>;

  constructor(words: readonly string[], capacity: number) {
    this.#words = new WordIndex(words);
    this.#codes = new RowRoom(Uint8Array, capacity);
  }

  widen(capacity: number): void {
    this.#codes.widen(capacity);
  }

  write(row: number, { bytes, start, end }: CellText): boolean {
    let code = this.#spelled.codeOf(bytes, start, end);
    if (code === 0) {
      code = this.#words.codeOf(bytes, start, end);
      if (code !== 0) this.#spelled.learn(bytes, start, end, code);
    }
    this.#codes.values[row] = code;
    return code !== 0;
  }

  blank(row: number): void {
    this.#codes.values[row] = 0;
  }

  taken(rows: number): AppendColumn {
    return { codes: this.#codes.taken().subarray(0, rows), words: this.#words.words };
  }

  bytesBefore(row: number): number {
    return row;
  }
}
