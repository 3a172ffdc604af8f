import type { TableName } from '../../shared/record-tables.ts';
import { shownText } from './cell-text.ts';
import { CsvReader, longestRecord, type Break } from './csv-reader.ts';
import { CsvRow } from './csv-row.ts';
import type { FileRows } from './file-rows.ts';
import { delimiterOf, firstLineOf, readHeader, type Header } from './header.ts';

type Chunks = AsyncGenerator<Uint8Array, void, undefined>;

/** Smaller pieces are gathered first: each costs a copy of what is left of the one before. */
const pieceBytes = 2 ** 18;

const breaks: Readonly<Record<Exclude<Break, null>, readonly [reason: string, accepted: string]>> = {
  unclosed: ['a quote opened on this line is not closed where the row could end', 'every opening quote closed'],
  'after-quote': ['text stands behind a closing quote', 'a delimiter or the line end behind a closing quote'],
  'too-long': ['the line is too long for a row', `rows under ${longestRecord} bytes`],
};

/** Of a line that is too long, this much is kept to show it by. */
const longestOriginal = 10_000;

/**
 * Reads delimited text into rows.
 * @param rowsFor is given the header as soon as it is known
 * @returns the rows, or why the file as a whole cannot be used
 */
export async function readCsvRows(
  chunks: Chunks,
  table: TableName,
  rowsFor: (header: Header) => Promise<FileRows>,
): Promise<FileRows | string> {
  const pieces = gathered(chunks);
  const opened = await openHeader(pieces, table);
  if (typeof opened === 'string') return opened;
  const { reader, header } = opened;
  const rows = await rowsFor(header);
  const cut = new CsvRow(reader);
  for (;;) {
    while (reader.next()) {
      takeRecord(reader, cut, header, rows);
      if (rows.full) await rows.send();
    }
    const { done, value } = await pieces.next();
    if (done) break;
    reader.push(value.bytes, value.last);
  }
  await rows.finish();
  return rows;
}

/** Reads on until the headers are known. */
async function openHeader(
  pieces: AsyncGenerator<Piece, void, undefined>,
  table: TableName,
): Promise<{ reader: CsvReader; header: Header } | string> {
  const reader = new CsvReader();
  for (let first = true; ; first = false) {
    const { done, value } = await pieces.next();
    if (done) return 'is blank';
    reader.push(first ? withoutMark(value.bytes) : value.bytes, value.last);
    const line = firstLineOf(reader.bytes, value.last);
    if (!line) {
      if (reader.bytes.length > longestRecord)
        return `has no line end in its first ${longestRecord} bytes, so no headers`;
      continue;
    }
    if (line.includes(0)) return 'holds bytes of zero, so it is no text';
    reader.delimiter = delimiterOf(table, line);
    if (!reader.next()) continue;
    if (reader.broken) return 'has a quote in its headers that is not closed';
    const header = readHeader(table, headersIn(reader));
    if (typeof header === 'string') return header;
    reader.columns = header.width;
    reader.widest = reader.cells.count;
    return { reader, header };
  }
}

function headersIn(reader: CsvReader): string[] {
  const row = new CsvRow(reader);
  return Array.from({ length: reader.cells.count }, (_, index) => row.shown(index));
}

function takeRecord(reader: CsvReader, cut: CsvRow, { width }: Header, rows: FileRows): void {
  const { count } = reader.cells;
  if (reader.broken) {
    const [reason, accepted] = breaks[reader.broken];
    const end = Math.min(reader.end, reader.start + longestOriginal);
    rows.broken(reader.line, reason, accepted, shownText(reader.bytes.subarray(reader.start, end)));
  } else if (count < width || (count > width && reader.hasSurplus())) {
    const cells = `${count} ${count === 1 ? 'cell' : 'cells'}`;
    rows.broken(reader.line, `has ${cells} for ${width} headers`, 'one cell for each header', cut.original());
  } else rows.row(cut, reader.line);
}

interface Piece {
  readonly bytes: Uint8Array;
  readonly last: boolean;
}

/** The bytes in pieces of some size, the last of them marked; always at least one. */
async function* gathered(chunks: Chunks): AsyncGenerator<Piece, void, undefined> {
  let held: Uint8Array[] = [];
  let length = 0;
  for (;;) {
    const { done, value } = await chunks.next();
    if (value) {
      held.push(value);
      length += value.length;
    }
    if (!done && length < pieceBytes) continue;
    const bytes = new Uint8Array(length);
    let at = 0;
    for (const chunk of held) {
      bytes.set(chunk, at);
      at += chunk.length;
    }
    yield { bytes, last: done === true };
    if (done) return;
    held = [];
    length = 0;
  }
}

/** UTF-8 needs no byte order mark, and some programs write one. */
const withoutMark = (bytes: Uint8Array): Uint8Array =>
  bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? bytes.subarray(3) : bytes;
