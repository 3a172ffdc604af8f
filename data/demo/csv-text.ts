import type { Cell } from './rows.ts';

/** One CSV line (RFC 4180 quoting, `\n` line end); null is an empty field. */
export function csvLine(cells: readonly Cell[]): string {
  let line = csvField(cells[0]);
  for (let index = 1; index < cells.length; index++) line += `,${csvField(cells[index])}`;
  return `${line}\n`;
}

/** A line of the row's values in the order of `columns`. */
export function csvRow<Row>(row: Row, columns: readonly (keyof Row)[]): string {
  let line = csvField(row[columns[0] as keyof Row] as Cell);
  for (let index = 1; index < columns.length; index++) line += `,${csvField(row[columns[index] as keyof Row] as Cell)}`;
  return `${line}\n`;
}

const NEEDS_QUOTES = /[",\r\n]/;

function csvField(cell: Cell | undefined): string {
  if (cell === null || cell === undefined) return '';
  if (typeof cell === 'number') return String(cell);
  return NEEDS_QUOTES.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}
