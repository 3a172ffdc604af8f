/** What a file's first bytes say it is, whatever its name ends in. */
export type FileContent =
  | 'empty'
  | 'text'
  | 'utf-16le'
  | 'utf-16be'
  | 'json-lines'
  | 'gzip'
  | 'zip'
  | 'parquet'
  | 'arrow-file'
  | 'arrow-stream'
  | 'foreign';

const asciiOf = (word: string): number[] => Array.from(word, (letter) => letter.charCodeAt(0));

const starts: readonly (readonly [content: FileContent, what: string, bytes: readonly number[]])[] = [
  ['gzip', 'gzip', [0x1f, 0x8b]],
  ['utf-16le', 'text', [0xff, 0xfe]],
  ['utf-16be', 'text', [0xfe, 0xff]],
  ['arrow-file', 'Arrow', asciiOf('ARROW1')],
  // A stream opens with the continuation mark and the length of its schema, which is under 16 MB.
  ['arrow-stream', 'Arrow', [0xff, 0xff, 0xff, 0xff]],
  ['parquet', 'Parquet', asciiOf('PAR1')],
  ['zip', 'zip', [0x50, 0x4b, 0x03, 0x04]],
  ['zip', 'zip', [0x50, 0x4b, 0x05, 0x06]],
  ['foreign', 'a Parquet file whose contents are encrypted', asciiOf('PARE')],
  ['foreign', 'a part of a zip archive in several parts', [0x50, 0x4b, 0x07, 0x08]],
  ['foreign', 'a workbook of the old binary kind (.xls), or one locked with a password', [0xd0, 0xcf, 0x11, 0xe0]],
  ['foreign', 'a workbook of the oldest binary kind (.xls)', [0x09, 0x08]],
  ['foreign', 'a PDF', asciiOf('%PDF')],
  ['foreign', 'a rich text document', asciiOf('{\\rtf')],
  ['foreign', 'a Feather file of version 1', asciiOf('FEA1')],
  ['foreign', 'an ORC file', asciiOf('ORC')],
  ['foreign', 'an Avro file', [...asciiOf('Obj'), 1]],
  ['foreign', 'a database', asciiOf('SQLite format 3\0')],
  ['foreign', 'a database', [0, 1, 0, 0, ...asciiOf('Standard ')]],
  ['foreign', 'a 7z archive', [0x37, 0x7a, 0xbc, 0xaf]],
  ['foreign', 'a RAR archive', asciiOf('Rar!')],
  ['foreign', 'packed with bzip2', asciiOf('BZh')],
  ['foreign', 'packed with xz', [0xfd, 0x37, 0x7a, 0x58, 0x5a]],
  ['foreign', 'packed with Zstandard', [0x28, 0xb5, 0x2f, 0xfd]],
  ['foreign', 'a picture', [0x89, 0x50, 0x4e, 0x47]],
  ['foreign', 'a picture', [0xff, 0xd8, 0xff]],
];

/** How many first bytes are wanted. */
export const sniffedBytes = 1024;

export interface ToldContent {
  readonly content: FileContent;
  /** Its kind in words. */
  readonly what: string;
}

/** Tells a file by its first bytes. */
export function fileContent(head: Uint8Array): ToldContent {
  if (head.length === 0) return { content: 'empty', what: 'empty' };
  const known = starts.find(([, , bytes]) => bytes.every((byte, index) => head[index] === byte));
  if (known) return { content: known[0], what: known[1] };
  const wide = utf16WithoutMark(head);
  if (wide) return { content: wide, what: 'text' };
  return textContent(new TextDecoder().decode(head.subarray(0, sniffedBytes)));
}

/** Latin letters leave every second byte zero: the second of each pair where the little end comes first. */
function utf16WithoutMark(head: Uint8Array): 'utf-16le' | 'utf-16be' | null {
  const pairs = Math.min(head.length, sniffedBytes) >> 1;
  const zeros = [0, 0];
  for (let at = 0; at < pairs * 2; at++) if (head[at] === 0) zeros[at & 1]!++;
  const [first, second] = zeros as [number, number];
  if (second > pairs * 0.6 && first < pairs * 0.1) return 'utf-16le';
  return first > pairs * 0.6 && second < pairs * 0.1 ? 'utf-16be' : null;
}

function textContent(text: string): ToldContent {
  const start = text.replace(/^\uFEFF/, '').trimStart();
  if (start.startsWith('{')) return { content: 'json-lines', what: 'JSON lines' };
  if (/^\[\s*(\{|\[|\]|$)/.test(start)) {
    return { content: 'foreign', what: 'one JSON list; in JSON lines each object stands on a line of its own' };
  }
  if (/^<(\?xml|!doctype|html|head|body|table|meta|style|workbook)\b/i.test(start)) {
    return { content: 'foreign', what: 'a web page or XML, whatever its name ends in' };
  }
  return { content: 'text', what: 'text' };
}
