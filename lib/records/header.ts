import { recordTables, type RecordColumn, type TableName } from '../../shared/record-tables.ts';
import { shownNames } from './listed.ts';

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
    return `has no column ${named}; ${table} need it; the headers found are ${shownNames(headers)}`;
  }
  const twice = columns.find(({ column, cell }) => names.indexOf(column.name, cell + 1) >= 0);
  if (twice)
    return `has the column ${twice.column.name} twice; one of them has to go; the headers found are ${shownNames(headers)}`;
  const used = new Set(columns.map(({ cell }) => cell));
  const unused = headers
    .slice(0, width)
    .flatMap((header, cell) =>
      used.has(cell) ? [] : [header.trim() === '' ? `(column ${cell + 1}, without a header)` : header.trim()],
    );
  return { headers, columns, unused, width };
}
