import { recordTables, type RecordColumn, type TableName } from '../../shared/record-tables.ts';
import { comma, delimiters, lineFeed, returnMark } from './characters.ts';

/** Which cell of a row feeds which column of its table. */
export interface Header {
  /** The file's own headers, in its order. */
  readonly headers: readonly string[];
  /** Columns of the table that the file has, in the table's order, each with its place in the file. */
  readonly columns: readonly { readonly column: RecordColumn; readonly cell: number }[];
  readonly unused: readonly string[];
  /** Cells that a row must have: as far as the last header that is not blank. */
  readonly width: number;
}

const nameOf = (header: string): string => header.trim().toLowerCase();

/** Reads the headers of a file for its table, or says why it cannot be used. */
export function readHeader(table: TableName, headers: readonly string[]): Header | string {
  const names = headers.map(nameOf);
  const width = names.findLastIndex((name) => name !== '') + 1;
  const columns = recordTables[table].flatMap((column) => {
    const cell = names.indexOf(column.name);
    return cell < 0 ? [] : [{ column, cell }];
  });
  const missing = recordTables[table].filter(({ name, required }) => required && !names.includes(name));
  if (missing.length > 0) {
    const named = missing.map(({ name }) => name).join(', ');
    return `has no column ${named}; ${table} need it; the headers found are ${shownHeaders(headers)}`;
  }
  const twice = columns.find(({ column, cell }) => names.indexOf(column.name, cell + 1) >= 0);
  if (twice)
    return `has the column ${twice.column.name} twice; one of them has to go; the headers found are ${shownHeaders(headers)}`;
  const used = new Set(columns.map(({ cell }) => cell));
  const unused = headers
    .slice(0, width)
    .flatMap((header, cell) =>
      used.has(cell) ? [] : [header.trim() === '' ? `(column ${cell + 1}, without a header)` : header.trim()],
    );
  return { headers, columns, unused, width };
}

const longestShown = 600;

function shownHeaders(headers: readonly string[]): string {
  const shown = headers.map((header) => header.trim().replaceAll(/[\u0000-\u001f\u007f\ufffd]/g, '·')).join(', ');
  return shown.length > longestShown ? `${shown.slice(0, longestShown)} …` : shown;
}

/** The delimiter of a table, told by its first line: the one that cuts out most of the table's headers. */
export function delimiterOf(table: TableName, firstLine: Uint8Array): number {
  const known = new Set(recordTables[table].map(({ name }) => name));
  const text = new TextDecoder().decode(firstLine).replaceAll('"', '');
  const scored = delimiters.map((delimiter) => {
    const names = text.split(String.fromCharCode(delimiter)).map(nameOf);
    return { delimiter, hits: names.filter((name) => known.has(name)).length, cells: names.length };
  });
  const best = scored.reduce((best, next) =>
    next.hits > best.hits || (next.hits === best.hits && next.cells > best.cells) ? next : best,
  );
  return best.cells > 1 ? best.delimiter : comma;
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
