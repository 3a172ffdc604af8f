import type { Cell } from './rows.ts';

/** One CSV line (RFC 4180 quoting, `\n` line end); null is an empty field. */
export function csvLine(cells: readonly Cell[]): string {
  let line = '';
  for (let index = 0; index < cells.length; index++) {
    if (index > 0) line += ',';
    const cell = cells[index];
    if (cell === null || cell === undefined) continue;
    line += typeof cell === 'string' && /[",\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
  }
  return `${line}\n`;
}

/** A line of the row's values in the order of `columns`. */
export function csvRow<Row>(row: Row, columns: readonly (keyof Row)[]): string {
  return csvLine(columns.map((column) => row[column] as Cell));
}
