import { CsvReader, longestRecord } from './csv-reader.ts';
import { CsvRow } from './csv-row.ts';
import { delimiterOf } from './delimiter.ts';
import { topRows, type TopRow } from './header-row.ts';
import type { Chunks } from './record-source.ts';
import { joined } from './source-bytes.ts';
import { encodingOf, type TextEncoding } from './text-encoding.ts';

export interface Piece {
  readonly bytes: Uint8Array;
  readonly last: boolean;
}
export type Pieces = AsyncGenerator<Piece, void, undefined>;

/** The beginning of a text, and what it tells about the whole. */
export interface CsvHead extends Piece {
  readonly delimiter: number;
  /** Null where the beginning is ASCII, which leaves it open. */
  readonly encoding: TextEncoding | null;
  readonly top: readonly TopRow[];
  /** Whether the first row could not be cut into cells. */
  readonly broken: boolean;
}

/** Smaller pieces are gathered first: each costs a copy of what is left of the one before. */
const pieceBytes = 2 ** 18;

/** The bytes in pieces of some size, the last of them marked; always at least one. */
export async function* gathered(chunks: Chunks): Pieces {
  let held: Uint8Array[] = [];
  let length = 0;
  for (;;) {
    const { done, value } = await chunks.next();
    if (value) {
      held.push(value);
      length += value.length;
    }
    if (!done && length < pieceBytes) continue;
    yield { bytes: held.length === 1 ? held[0]! : joined(held), last: done === true };
    if (done) return;
    held = [];
    length = 0;
  }
}

/** Reads on until there are rows to tell the file by, or says why it is no text with rows. */
export async function readHead(pieces: Pieces): Promise<CsvHead | string> {
  let bytes: Uint8Array = new Uint8Array(0);
  for (;;) {
    const { done, value } = await pieces.next();
    if (done) return 'is blank';
    bytes = joined([bytes, value.bytes]);
    const { last } = value;
    if (firstLine(bytes).includes(0)) return 'holds bytes of zero, so it is no text';
    if (!last && !bytes.includes(10) && !bytes.includes(13)) {
      if (bytes.length <= longestRecord) continue;
      return `has no line end in its first ${longestRecord} bytes, so no headers`;
    }
    const marked = hasMark(bytes);
    const text = marked ? bytes.subarray(3) : bytes;
    const encoding = marked ? 'utf-8' : text.some((byte) => byte > 127) ? encodingOf(text) : null;
    const head = { bytes: text, last, delimiter: delimiterOf(text, last), encoding };
    const rows = topOf(head);
    if (rows.top.length > 0 || rows.broken) return { ...head, ...rows };
    if (last) return text.some((byte) => byte > 32) ? tooLong : 'is blank';
    if (bytes.length > longestRecord * 2) return text.some((byte) => byte > 32) ? tooLong : 'is blank in its beginning';
  }
}

/** As far as the end of the first line that is not blank. */
function firstLine(bytes: Uint8Array): Uint8Array {
  const start = bytes.findIndex((byte) => byte > 32 || byte === 0);
  const end = bytes.findIndex((byte, at) => at > start && (byte === 10 || byte === 13));
  return bytes.subarray(Math.max(0, start), end < 0 ? bytes.length : end);
}

const tooLong = `has no line end in its first ${longestRecord} bytes, so no headers`;

function topOf({ bytes, last, delimiter, encoding }: Omit<CsvHead, 'top' | 'broken'>): Pick<CsvHead, 'top' | 'broken'> {
  const reader = new CsvReader(delimiter);
  reader.push(bytes, last);
  const row = new CsvRow(reader, encoding);
  const top: TopRow[] = [];
  let broken: boolean | null = null;
  for (let read = 0; read < topRows && reader.next(); read++) {
    broken ??= reader.broken !== null;
    if (!reader.broken) top.push({ line: reader.line, cells: cellsOf(reader, row) });
  }
  return { top, broken: broken ?? false };
}

/** All cells of the record that the reader stands at. */
export const cellsOf = ({ cells }: CsvReader, row: CsvRow): string[] =>
  Array.from({ length: cells.count }, (_, index) => row.shown(index));

/** UTF-8 needs no byte order mark, and some programs write one. */
const hasMark = (bytes: Uint8Array): boolean => bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf;
