import type { SourceChoice } from '../../shared/source-choice.ts';
import { cellsOf, gathered, readHead, type CsvHead, type Pieces } from './csv-head.ts';
import { CsvReader, longestRecord, type Break } from './csv-reader.ts';
import { CsvRow } from './csv-row.ts';
import { headersAt, headerRows } from './header-row.ts';
import type { Chunks } from './record-source.ts';
import type { OpenRows, Outcome, RowSink, Say } from './row-sink.ts';

const breaks: Readonly<Record<Exclude<Break, null>, readonly [reason: string, accepted: string]>> = {
  unclosed: ['a quote opened on this line is not closed where the row could end', 'every opening quote closed'],
  'after-quote': ['text stands behind a closing quote', 'a delimiter or the line end behind a closing quote'],
  'too-long': ['the line is too long for a row', `rows under ${longestRecord} bytes`],
};

/** Of a line that is too long, this much is kept to show it by. */
const longestOriginal = 10_000;

/**
 * Reads delimited text into rows. Its delimiter, its encoding (UTF-8, else Windows-1252) and the row of
 * its headers are told by its beginning; what stands above the headers is no row.
 */
export async function readCsvRows(
  chunks: Chunks,
  openRows: OpenRows,
  choice: SourceChoice,
  say: Say,
): Promise<Outcome> {
  const pieces = gathered(chunks);
  const head = await readHead(pieces);
  if (typeof head === 'string') return head;
  const reader = new CsvReader(head.delimiter);
  reader.push(head.bytes, head.last);
  const cut = new CsvRow(reader, head.encoding);
  const rows = await openAtHeaders(head, reader, cut, pieces, openRows, choice.headerRow);
  if (typeof rows === 'string') return rows;
  if (reader.line > (head.top[0]?.line ?? 1)) say(`has its headers in row ${reader.line}`);
  reader.columns = rows.width;
  reader.widest = reader.cells.count;
  do {
    while (reader.next()) {
      cut.tellEncoding();
      takeRecord(reader, cut, rows);
      if (rows.full) await rows.send();
    }
  } while (await pushNext(reader, pieces));
  await rows.finish();
  if (cut.encoding === 'windows-1252') {
    say('is not UTF-8, and was read as Windows-1252; where letters look wrong, save it as UTF-8');
  }
  return null;
}

/** Finds the headers and leaves the reader at them; of several rows that may be headers the first that serves. */
async function openAtHeaders(
  { top, broken }: CsvHead,
  reader: CsvReader,
  cut: CsvRow,
  pieces: Pieces,
  openRows: OpenRows,
  chosen: number | undefined,
): Promise<RowSink | string> {
  if (chosen !== undefined) {
    if (!(await moveTo(reader, pieces, chosen)) || reader.broken) return `has no row ${chosen} that could hold headers`;
    return openRows(headersAt([...top, { line: chosen, cells: cellsOf(reader, cut) }], chosen));
  }
  let refused: string | null = null;
  for (const { line } of headerRows(top)) {
    const rows = await openRows(headersAt(top, line));
    if (typeof rows !== 'string') {
      await moveTo(reader, pieces, line);
      return rows;
    }
    refused ??= rows;
  }
  return broken || refused === null ? 'has a quote in its headers that is not closed' : refused;
}

/** Moves to the record that begins on a line; false if none does. */
async function moveTo(reader: CsvReader, pieces: Pieces, line: number): Promise<boolean> {
  while (reader.line < line) if (!reader.next() && !(await pushNext(reader, pieces))) return false;
  return reader.line === line;
}

/** Gives the reader more; false if there is no more. */
async function pushNext(reader: CsvReader, pieces: Pieces): Promise<boolean> {
  const { done, value } = await pieces.next();
  if (!done) reader.push(value.bytes, value.last);
  return !done;
}

function takeRecord(reader: CsvReader, cut: CsvRow, rows: RowSink): void {
  const { count } = reader.cells;
  const { width } = rows;
  if (reader.broken) {
    const [reason, accepted] = breaks[reader.broken];
    const end = reader.broken === 'too-long' ? Math.min(reader.end, reader.start + longestOriginal) : reader.end;
    rows.broken(reader.line, reason, accepted, cut.text(reader.start, end));
  } else if (count < width || (count > width && reader.hasSurplus())) {
    const cells = `${count} ${count === 1 ? 'cell' : 'cells'}`;
    rows.broken(reader.line, `has ${cells} for ${width} headers`, 'one cell for each header', cut.original());
  } else rows.row(cut, reader.line);
}
