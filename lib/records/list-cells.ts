import type { RecordColumn } from '../../shared/record-tables.ts';
import type { CellText } from './cell-text.ts';
import { isBlank, semicolon } from './characters.ts';
import { TextCells } from './text-cells.ts';
import { WordIndex } from './word-index.ts';

const separator = Uint8Array.of(semicolon);

/** Whether spaces, too, part the words of a list. */
export const partedBySpaces = ({ name }: RecordColumn): boolean => name === 'axle_roles';

/** Lists written with `;` between their words, no spaces and no empty places, in the order given. */
export class ListCells extends TextCells {
  readonly #words: WordIndex | null;
  readonly #canonical: readonly Uint8Array[];
  readonly #spaced: boolean;
  readonly #required: boolean;

  constructor(column: RecordColumn, capacity: number) {
    super(capacity);
    this.#words = column.choices ? new WordIndex(column.choices) : null;
    this.#canonical = (column.choices ?? []).map((word) => new TextEncoder().encode(word));
    this.#spaced = partedBySpaces(column);
    this.#required = column.required;
  }

  override write(row: number, { bytes, start, end }: CellText): boolean {
    this.begin(row);
    let words = 0;
    for (let at = start; at <= end; at++) {
      const from = at;
      while (at < end && !this.#parts(bytes[at]!)) at++;
      let to = at;
      let begin = from;
      while (begin < to && isBlank(bytes[begin]!)) begin++;
      while (to > begin && isBlank(bytes[to - 1]!)) to--;
      if (begin === to) continue;
      if (words++ > 0) this.put(row, separator, 0, 1);
      if (!this.#putWord(row, bytes, begin, to)) return false;
    }
    if (words > 0) return true;
    this.blank(row);
    return !this.#required;
  }

  #parts(byte: number): boolean {
    return byte === semicolon || (this.#spaced && isBlank(byte));
  }

  #putWord(row: number, bytes: Uint8Array, start: number, end: number): boolean {
    if (!this.#words) return this.put(row, bytes, start, end);
    const word = this.#canonical[this.#words.codeOf(bytes, start, end) - 1];
    return word !== undefined && this.put(row, word, 0, word.length);
  }
}
