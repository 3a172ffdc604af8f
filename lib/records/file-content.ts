/** What a file's first bytes say it is, whatever its name ends in. */
export type FileContent =
  'empty' | 'text' | 'utf-16le' | 'utf-16be' | 'gzip' | 'arrow-file' | 'arrow-stream' | 'foreign';

const asciiOf = (word: string): number[] => Array.from(word, (letter) => letter.charCodeAt(0));

const starts: readonly (readonly [content: FileContent, what: string, bytes: readonly number[]])[] = [
  ['gzip', 'gzip', [0x1f, 0x8b]],
  ['utf-16le', 'text', [0xff, 0xfe]],
  ['utf-16be', 'text', [0xfe, 0xff]],
  ['arrow-file', 'Arrow', asciiOf('ARROW1')],
  // A stream opens with the continuation mark and the length of its schema, which is under 16 MB.
  ['arrow-stream', 'Arrow', [0xff, 0xff, 0xff, 0xff]],
  ['foreign', 'a Parquet file', asciiOf('PAR1')],
  ['foreign', 'a zip archive or a spreadsheet', [0x50, 0x4b, 0x03, 0x04]],
  ['foreign', 'a spreadsheet of an old kind', [0xd0, 0xcf, 0x11, 0xe0]],
  ['foreign', 'a PDF', asciiOf('%PDF')],
];

/** How many first bytes are wanted. */
export const sniffedBytes = 1024;

/** Tells a file by its first bytes; `what` names a foreign kind in words. */
export function fileContent(head: Uint8Array): { readonly content: FileContent; readonly what: string } {
  if (head.length === 0) return { content: 'empty', what: 'empty' };
  const known = starts.find(([, , bytes]) => bytes.every((byte, index) => head[index] === byte));
  if (known) return { content: known[0], what: known[1] };
  // UTF-16 without its mark: Latin letters leave every second byte zero.
  if (head[0] !== 0 && head[1] === 0 && head[3] === 0) return { content: 'utf-16le', what: 'text' };
  if (head[0] === 0 && head[1] !== 0 && head[2] === 0) return { content: 'utf-16be', what: 'text' };
  return { content: 'text', what: 'text' };
}
