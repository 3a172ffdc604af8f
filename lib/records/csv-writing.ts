/** What a spreadsheet would take for a formula, or pass over to find one. */
const runnable = /^[=+\-@\t\r]/;

/**
 * One cell by RFC 4180. A text that a spreadsheet would run gets an apostrophe in front, numbers
 * written as text (-5) like any other, so that the rule has no exception; a number is written as it
 * is, null as blank.
 */
export function csvCell(value: string | number | null): string {
  if (value === null) return '';
  if (typeof value === 'number') return String(value);
  const text = runnable.test(value) ? `'${value}` : value;
  return /[",\n\r]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** One row with its line end. */
export const csvLine = (cells: readonly (string | number | null)[]): string => `${cells.map(csvCell).join(',')}\r\n`;

/** A whole table: the headers, then the rows in their order. */
export const csvText = (columns: readonly string[], rows: readonly (readonly (string | number | null)[])[]): string =>
  csvLine(columns) + rows.map(csvLine).join('');
