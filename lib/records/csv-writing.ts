import { csvCell } from '../../shared/csv-cell.ts';

export { csvCell };

/** One row with its line end. */
export const csvLine = (cells: readonly (string | number | null)[]): string => `${cells.map(csvCell).join(',')}\r\n`;

/** A whole table: the headers, then the rows in their order. */
export const csvText = (columns: readonly string[], rows: readonly (readonly (string | number | null)[])[]): string =>
  csvLine(columns) + rows.map(csvLine).join('');
