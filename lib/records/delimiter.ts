import { comma, delimiters, lineFeed, quote, returnMark } from './characters.ts';

/** The delimiter of a table, told by its first line: the one that cuts out most headers. */
export function delimiterOf(firstLine: Uint8Array): number {
  const counts = delimiters.map((delimiter) => ({ delimiter, count: countOutsideQuotes(firstLine, delimiter) }));
  const best = counts.reduce((best, next) => (next.count > best.count ? next : best));
  return best.count > 0 ? best.delimiter : comma;
}

function countOutsideQuotes(line: Uint8Array, delimiter: number): number {
  let count = 0;
  let quoted = false;
  for (const byte of line) {
    if (byte === quote) quoted = !quoted;
    else if (byte === delimiter && !quoted) count++;
  }
  return count;
}

/** The first line that is not blank, or null where its end has not come yet. */
export function firstLineOf(bytes: Uint8Array, last: boolean): Uint8Array | null {
  let start = 0;
  for (let at = 0; at < bytes.length; at++) {
    if (bytes[at] !== lineFeed && bytes[at] !== returnMark) continue;
    if (bytes.subarray(start, at).some((byte) => byte > 32)) return bytes.subarray(start, at);
    start = at + 1;
  }
  return last ? bytes.subarray(start) : null;
}
