import bindings from '@duckdb/node-bindings';
import type { CodedText, TextBuffer } from './engine.ts';
import { copy, type Fill } from './native-vector.ts';
import { textBuffer } from './text-buffer.ts';

/**
 * DuckDB keeps a text in a slot of four words of 32 bits: its length, then the text itself where it is
 * short; else its first four bytes, then where in memory it lies (`duckdb_string_t` in `duckdb.h`).
 */
const slotWords = 4;
const inlineBytes = 12;

/** What is kept of the three words behind the length in the slot of a short text, by its length. */
const kept = Int32Array.from({ length: (inlineBytes + 1) * 3 }, (_, index) => {
  const bytes = Math.min(4, Math.max(0, Math.floor(index / 3) - 4 * (index % 3)));
  return 2 ** (8 * bytes) - 1;
});

/** Three words are read wherever a text begins, the last one included. */
function padded(bytes: Uint8Array): [buffer: ArrayBufferLike, offset: number] {
  if (bytes.byteOffset + bytes.length + inlineBytes <= bytes.buffer.byteLength) return [bytes.buffer, bytes.byteOffset];
  const longer = new Uint8Array(bytes.length + inlineBytes);
  longer.set(bytes);
  return [longer.buffer, 0];
}

/** Fills slots with texts that all lie in one block of bytes. */
class Slots {
  readonly words: Int32Array;
  readonly #view: DataView;

  /** @param capacity in slots @param bytes of all texts */
  constructor(
    capacity: number,
    private readonly bytes: Uint8Array,
  ) {
    this.words = new Int32Array(capacity * slotWords);
    this.#view = new DataView(...padded(bytes));
  }

  /**
   * Makes slots of texts, of which text i lies in `bytes[offsets[first + i] … offsets[first + i + 1])`.
   * Those that are long are put into the vector's own memory, all with one call.
   */
  make(vector: bindings.Vector, offsets: Int32Array, first: number, count: number): void {
    const { words } = this;
    const view = this.#view;
    let long = false;
    for (let text = 0, slot = 0; text < count; text++, slot += slotWords) {
      const start = offsets[first + text]!;
      const length = offsets[first + text + 1]! - start;
      words[slot] = length;
      if (length > inlineBytes) {
        long = true;
        continue;
      }
      words[slot + 1] = view.getInt32(start, true) & kept[length * 3]!;
      words[slot + 2] = view.getInt32(start + 4, true) & kept[length * 3 + 1]!;
      words[slot + 3] = view.getInt32(start + 8, true) & kept[length * 3 + 2]!;
    }
    if (long) this.#point(vector, offsets, first, count);
  }

  #point(vector: bindings.Vector, offsets: Int32Array, first: number, count: number): void {
    const begin = offsets[first]!;
    bindings.vector_assign_string_element_len(vector, 0, this.bytes.subarray(begin, offsets[first + count]));
    const { buffer, byteOffset } = bindings.vector_get_data(vector, slotWords * 4);
    const slotOfAll = new DataView(buffer, byteOffset);
    const [low, high] = [slotOfAll.getUint32(8, true), slotOfAll.getUint32(12, true)];
    for (let text = 0, slot = 0; text < count; text++, slot += slotWords) {
      if (this.words[slot]! <= inlineBytes) continue;
      const start = offsets[first + text]!;
      const place = low + start - begin;
      this.words[slot + 1] = this.#view.getInt32(start, true);
      this.words[slot + 2] = place;
      this.words[slot + 3] = high + (place >= 2 ** 32 ? 1 : 0);
    }
  }
}

export function textSlots({ offsets, bytes }: TextBuffer, chunkRows: number): Fill {
  const slots = new Slots(chunkRows, bytes);
  return (vector, from, rows) => {
    slots.make(vector, offsets, from, rows);
    copy(vector, slots.words, rows * slotWords * 4);
  };
}

export function codedSlots({ codes, words }: CodedText, chunkRows: number): Fill {
  // NULL, of code 0, has an empty slot.
  const { offsets, bytes } = textBuffer(['', ...words]);
  const ready = new Slots(offsets.length - 1, bytes);
  const slots = new Int32Array(chunkRows * slotWords);
  return (vector, from, rows) => {
    ready.make(vector, offsets, 0, offsets.length - 1);
    for (let row = 0, slot = 0; row < rows; row++, slot += slotWords) {
      const code = codes[from + row]! * slotWords;
      slots[slot] = ready.words[code]!;
      slots[slot + 1] = ready.words[code + 1]!;
      slots[slot + 2] = ready.words[code + 2]!;
      slots[slot + 3] = ready.words[code + 3]!;
    }
    copy(vector, slots, rows * slotWords * 4);
  };
}
