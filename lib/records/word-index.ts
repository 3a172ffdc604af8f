/** A closed vocabulary, found by the bytes of a cell whatever their case. */
export class WordIndex {
  /** Codes of the words of each length, counted from 1, and those words in lower case. */
  readonly #codes: number[][] = [];
  readonly #lower: Uint8Array[][] = [];

  constructor(readonly words: readonly string[]) {
    words.forEach((word, index) => {
      const lower = new TextEncoder().encode(word.toLowerCase());
      (this.#codes[lower.length] ??= []).push(index + 1);
      (this.#lower[lower.length] ??= []).push(lower);
    });
  }

  /** The word's code, or 0 where it is none of them. */
  codeOf(bytes: Uint8Array, start: number, end: number): number {
    const candidates = this.#lower[end - start];
    if (candidates === undefined) return 0;
    for (let index = 0; index < candidates.length; index++) {
      if (sameWord(candidates[index]!, bytes, start)) return this.#codes[end - start]![index]!;
    }
    return 0;
  }
}

function sameWord(lower: Uint8Array, bytes: Uint8Array, start: number): boolean {
  for (let at = 0; at < lower.length; at++) {
    const byte = bytes[start + at]!;
    if (byte !== lower[at] && (byte < 65 || byte > 90 || byte + 32 !== lower[at])) return false;
  }
  return true;
}
