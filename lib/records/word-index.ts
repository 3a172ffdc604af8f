/** A closed vocabulary, found by the bytes of a cell whatever their case. */
export class WordIndex {
  /** Candidates by length: the code, counted from 1, and the word in lower case. */
  readonly #byLength: (readonly (readonly [code: number, lower: Uint8Array])[])[] = [];

  constructor(readonly words: readonly string[]) {
    words.forEach((word, index) => {
      const lower = new TextEncoder().encode(word.toLowerCase());
      this.#byLength[lower.length] = [...(this.#byLength[lower.length] ?? []), [index + 1, lower]];
    });
  }

  /** The word's code, or 0 where it is none of them. */
  codeOf(bytes: Uint8Array, start: number, end: number): number {
    const candidates = this.#byLength[end - start];
    if (candidates === undefined) return 0;
    for (const [code, lower] of candidates) if (sameWord(lower, bytes, start)) return code;
    return 0;
  }
}

function sameWord(lower: Uint8Array, bytes: Uint8Array, start: number): boolean {
  for (let at = 0; at < lower.length; at++) {
    const byte = bytes[start + at]!;
    if ((byte >= 65 && byte <= 90 ? byte + 32 : byte) !== lower[at]) return false;
  }
  return true;
}
