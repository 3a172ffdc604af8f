/** Longer words are not worth keeping, nor are more of them. */
const longestWord = 64;
const mostWords = 255;

/** Slots, of which a quarter is filled at most. */
const slotCount = 1024;

/** Words by the bytes they were written in: what was read once need not be read again. */
export class SpelledWords {
  readonly #slots = new Uint8Array(slotCount);
  readonly #codes = new Uint8Array(mostWords + 1);
  readonly #bytes = new Uint8Array((mostWords + 1) * longestWord);
  readonly #lengths = new Uint8Array(mostWords + 1);
  #count = 0;

  /** The code that goes with these bytes; 0 where there is none. */
  codeOf(bytes: Uint8Array, start: number, end: number): number {
    return this.#codes[this.#slots[this.#slotOf(bytes, start, end)]!]!;
  }

  /** Ties a code to these bytes; false where there is no room for them. */
  learn(bytes: Uint8Array, start: number, end: number, code: number): boolean {
    if (this.#count === mostWords || end - start > longestWord) return false;
    const word = ++this.#count;
    this.#slots[this.#slotOf(bytes, start, end)] = word;
    this.#codes[word] = code;
    this.#lengths[word] = end - start;
    this.#bytes.set(bytes.subarray(start, end), word * longestWord);
    return true;
  }

  /** Where a word lies, or would lie. */
  #slotOf(bytes: Uint8Array, start: number, end: number): number {
    const middle = (start + end) >> 1;
    let slot = ((end - start) * 5 + bytes[start]! * 31 + bytes[middle]! * 7 + bytes[end - 1]! * 17) & (slotCount - 1);
    for (; ; slot = (slot + 1) & (slotCount - 1)) {
      const word = this.#slots[slot]!;
      if (word === 0 || (this.#lengths[word] === end - start && this.#same(word, bytes, start, end))) return slot;
    }
  }

  #same(word: number, bytes: Uint8Array, start: number, end: number): boolean {
    const own = this.#bytes;
    for (let at = start, there = word * longestWord; at < end; at++, there++) {
      if (bytes[at] !== own[there]) return false;
    }
    return true;
  }
}
