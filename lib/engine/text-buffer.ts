import type { TextBuffer } from './engine.ts';

const encoder = new TextEncoder();

/** Texts as one UTF-8 buffer; null stays null, '' stays a known empty text. */
export function textBuffer(texts: readonly (string | null)[]): TextBuffer {
  // Encoded in one go: a call for each text costs three times as much.
  const bytes = encoder.encode(texts.join(''));
  const offsets = new Int32Array(texts.length + 1);
  const known = new Uint8Array(texts.length);
  let end = 0;
  texts.forEach((text, row) => {
    if (text !== null) {
      known[row] = 1;
      end += text.length;
    }
    offsets[row + 1] = end;
  });
  if (end !== bytes.length) recount(texts, offsets);
  return { offsets, bytes, known };
}

/** Where some character takes more than one byte, each text's own length in bytes is needed. */
function recount(texts: readonly (string | null)[], offsets: Int32Array): void {
  let end = 0;
  texts.forEach((text, row) => {
    if (text !== null) end += utf8Length(text);
    offsets[row + 1] = end;
  });
}

function utf8Length(text: string): number {
  let length = 0;
  for (const character of text) {
    const code = character.codePointAt(0) ?? 0;
    length += code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
  }
  return length;
}
