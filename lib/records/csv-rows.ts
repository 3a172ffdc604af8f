import { shownText } from './cell-text.ts';
import { CsvReader, longestRecord, type Break } from './csv-reader.ts';
import { CsvRow } from './csv-row.ts';
import { delimiterOf, firstLineOf } from './delimiter.ts';
import type { OpenRows, Outcome, RowSink } from './row-sink.ts';

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
 * @param openRows is given the headers as soon as they are known
 */
export async function readCsvRows(chunks: Chunks, openRows: OpenRows): Promise<Outcome> {
  const pieces = gathered(chunks);
  const reader = await openHeader(pieces);
  if (typeof reader === 'string') return reader;
  const rows = await openRows(headersIn(reader));
  if (typeof rows === 'string') return rows;
  reader.columns = rows.width;
  reader.widest = reader.cells.count;
  const cut = new CsvRow(reader);
  for (;;) {
    while (reader.next()) {
      takeRecord(reader, cut, rows);
      if (rows.full) await rows.send();
    }
    const { done, value } = await pieces.next();
    if (done) break;
    reader.push(value.bytes, value.last);
  }
  await rows.finish();
  return null;
}

/** Reads on until the headers are known. */
async function openHeader(pieces: AsyncGenerator<Piece, void, undefined>): Promise<CsvReader | string> {
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
    reader.delimiter = delimiterOf(line);
    if (!reader.next()) continue;
    return reader.broken ? 'has a quote in its headers that is not closed' : reader;
  }
}

function headersIn(reader: CsvReader): string[] {
  const row = new CsvRow(reader);
  return Array.from({ length: reader.cells.count }, (_, index) => row.shown(index));
}

function takeRecord(reader: CsvReader, cut: CsvRow, rows: RowSink): void {
  const { count } = reader.cells;
  const { width } = rows;
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
