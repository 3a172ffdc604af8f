export type TextEncoding = 'utf-8' | 'windows-1252';

/**
 * Tells text by its bytes beyond ASCII. Letters of Windows-1252, which Latin-1 is a part of, hardly
 * ever make a sequence of UTF-8 by chance; a UTF-8 text in which some letter was cut apart has others
 * that are whole. A sequence cut off by the end counts neither way.
 */
export function encodingOf(bytes: Uint8Array): TextEncoding {
  let whole = 0;
  let broken = 0;
  for (let at = 0; at < bytes.length; at++) {
    if (bytes[at]! < 0x80) continue;
    const length = sequenceLength(bytes[at]!);
    const follow = length > 0 ? following(bytes, at + 1, length - 1) : 0;
    if (at + 1 + follow === bytes.length && follow < length - 1) break;
    if (length > 0 && follow === length - 1) whole++;
    else broken++;
    at += follow;
  }
  return broken > whole ? 'windows-1252' : 'utf-8';
}

/** Bytes of the UTF-8 sequence that this byte begins, by RFC 3629; 0 where it begins none. */
function sequenceLength(byte: number): number {
  if (byte >= 0xc2 && byte <= 0xdf) return 2;
  if (byte >= 0xe0 && byte <= 0xef) return 3;
  return byte >= 0xf0 && byte <= 0xf4 ? 4 : 0;
}

function following(bytes: Uint8Array, from: number, most: number): number {
  let count = 0;
  while (count < most && (bytes[from + count]! & 0xc0) === 0x80) count++;
  return count;
}

/** Windows-1252 from 0x80 to 0x9F by the Encoding Standard; the decoder of Node 20 takes it for Latin-1. */
const windowsLetters = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008DŽ\u008F\u0090‘’“”•–—˜™š›œ\u009DžŸ';

export function windowsText(bytes: Uint8Array): string {
  let text = '';
  for (const byte of bytes) {
    text += byte >= 0x80 && byte <= 0x9f ? windowsLetters.charAt(byte - 0x80) : String.fromCharCode(byte);
  }
  return text;
}
