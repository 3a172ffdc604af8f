import type { CodedText, TextBuffer } from './engine.ts';

const encoder = new TextEncoder();

/** Texts as one UTF-8 buffer; null stays null, '' stays a known empty text. */
export function textBuffer(texts: readonly (string | null)[]): TextBuffer {
  const offsets = new Int32Array(texts.length + 1);
  const known = new Uint8Array(texts.length);
  let bytes = new Uint8Array(Math.max(1024, texts.length * 16));
  let end = 0;
  texts.forEach((text, row) => {
    if (text !== null) {
      // UTF-8 needs at most three bytes for each UTF-16 unit.
      if (end + text.length * 3 > bytes.length) bytes = grown(bytes, end + text.length * 3);
      end += encoder.encodeInto(text, bytes.subarray(end)).written;
      known[row] = 1;
    }
    offsets[row + 1] = end;
  });
  return { offsets, bytes: bytes.subarray(0, end), known };
}

function grown(bytes: Uint8Array, needed: number): Uint8Array<ArrayBuffer> {
  const larger = new Uint8Array(Math.max(needed, bytes.length * 2));
  larger.set(bytes);
  return larger;
}

/** The words of coded text as UTF-8, at the place of their code; code 0 has none. */
export const encodedWords = ({ words }: CodedText): readonly Uint8Array[] => [
  new Uint8Array(0),
  ...words.map((word) => encoder.encode(word)),
];
