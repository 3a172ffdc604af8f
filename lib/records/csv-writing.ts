/** A cell that a spreadsheet would run as a formula gets an apostrophe before it (negative numbers too, so that no rule has an exception). */
const runnable = /^[=+\-@\t\r]/;

/** One cell by RFC 4180, made harmless. Null is blank. */
export function csvCell(value: string | number | null): string {
  if (value === null) return '';
  if (typeof value === 'number') return String(value);
  const text = runnable.test(value) ? `'${value}` : value;
  return /[",\n\r]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** One row with its line end. */
export const csvLine = (cells: readonly (string | number | null)[]): string => `${cells.map(csvCell).join(',')}\r\n`;
