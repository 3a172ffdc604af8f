import type { TableName } from '../../shared/record-tables.ts';
import { CsvReader, longestRecord, type Break } from './csv-reader.ts';
import { CsvRow } from './csv-row.ts';
import type { FileRows } from './file-rows.ts';
import { delimiterOf, firstLineOf, readHeader, type Header } from './header.ts';

type Chunks = AsyncGenerator<Uint8Array, void, undefined>;

const breaks: Record<Exclude<Break, null>, readonly [reason: string, accepted: string]> = {
  unclosed: ['a quote that is opened and never closed', 'a closing quote, or none'],
  'after-quote': ['text behind a closing quote', 'a delimiter or a line end behind a closing quote'],
  'too-long': ['a line longer than any row can be', `a row of at most ${longestRecord} bytes`],
};

const byteOrderMark = [0xef, 0xbb, 0xbf];

function withoutMark(bytes: Uint8Array): Uint8Array {
  return byteOrderMark.every((byte, index) => bytes[index] === byte) ? bytes.subarray(byteOrderMark.length) : bytes;
}

const joined = (before: Uint8Array, chunk: Uint8Array): Uint8Array => {
  const bytes = new Uint8Array(before.length + chunk.length);
  bytes.set(before);
  bytes.set(chunk, before.length);
  return bytes;
};

/** The first bytes, enough to hold the line of headers, and whether the file ends with them. */
async function headOf(chunks: Chunks): Promise<{ head: Uint8Array; line: Uint8Array | null; last: boolean }> {
  let head: Uint8Array = new Uint8Array(0);
  for (;;) {
    const { done, value } = await chunks.next();
    if (!done) head = joined(head, value);
    const bytes = withoutMark(head);
    const line = firstLineOf(bytes, done === true);
    if (line !== null || done === true || head.length > longestRecord)
      return { head: bytes, line, last: done === true };
  }
}

/** Reads the headers with the reader's own rules; a text says why they cannot be used. */
function headerOf(table: TableName, reader: CsvReader): Header | string {
  if (!reader.next()) return 'is empty';
  if (reader.broken !== null) return `has a line of headers with ${breaks[reader.broken][0]}`;
  const row = new CsvRow(reader);
  const header = readHeader(
    table,
    Array.from({ length: reader.cells.count }, (_, cell) => row.shown(cell)),
  );
  if (typeof header !== 'string') {
    reader.columns = reader.cells.count;
    reader.widest = reader.columns + 1;
  }
  return header;
}

function readRow(reader: CsvReader, row: CsvRow, rows: FileRows): void {
  const { cells, columns, line, broken } = reader;
  if (broken !== null) rows.broken(line, ...breaks[broken], row.original());
  else if (cells.count < columns || (cells.count > columns && reader.hasSurplus()))
    rows.broken(line, `${cells.count} cells where the headers are ${columns}`, `${columns} cells`, row.original());
  else rows.row(row, line);
}

/**
 * Reads a table of delimited text to its end, every line accounted for.
 * @param begin makes the account once the headers are known
 * @returns the account, or why the file as a whole cannot be used
 */
export async function readTextTable(
  table: TableName,
  chunks: Chunks,
  begin: (header: Header) => FileRows,
): Promise<FileRows | string> {
  const { head, line, last } = await headOf(chunks);
  if (line === null && !last) return `has no line end within its first ${longestRecord} bytes`;
  if (line === null || line.length === 0) return 'is empty';
  const reader = new CsvReader(delimiterOf(table, line));
  reader.push(head, last);
  const header = headerOf(table, reader);
  if (typeof header === 'string') return header;
  const rows = begin(header);
  const row = new CsvRow(reader);
  for (let ended = last; ;) {
    while (reader.next()) {
      readRow(reader, row, rows);
      if (rows.full) await rows.send();
    }
    if (ended) break;
    const { done, value } = await chunks.next();
    ended = done === true;
    reader.push(value ?? new Uint8Array(0), ended);
  }
  await rows.finish();
  return rows;
}
