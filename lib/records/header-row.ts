/** A row near the top of a file, its cells as they are shown. */
export interface TopRow {
  /** Its number in the file, counted from 1. */
  readonly line: number;
  readonly cells: readonly string[];
}

/** How many rows from the top of a file are looked at. */
export const topRows = 50;

/** Beside the likeliest row this many others are tried, where the likeliest does not serve. */
const mostTried = 6;

const numberOrDay = /^[-+(]?[\d.,' \u00a0]*\d[\d.,'%) \u00a0]*$|^\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}([ T].*)?$/;
const longestHeader = 120;

const filled = ({ cells }: TopRow): string[] => cells.map((cell) => cell.trim()).filter((cell) => cell !== '');

/**
 * Rows that may hold the headers, the likeliest first. Above the headers stand titles, blank rows and
 * the headings of groups of columns: all of them are narrower. Headers are words: no numbers, no days,
 * hardly one of them twice. The first row that is not blank comes last, whatever it holds.
 */
export function headerRows(rows: readonly TopRow[]): TopRow[] {
  const written = rows.filter((row) => filled(row).length > 0);
  const width = usualWidth(written);
  const worded = written.filter((row) => isWorded(filled(row)));
  const wide = worded.filter((row) => filled(row).length >= width * 0.75);
  const [first] = written;
  const likely = [...wide, ...(first ? [first] : []), ...worded];
  return [...new Set(likely)].slice(0, mostTried);
}

/** What most rows of the table have: the upper quartile, as titles may be many and a broken row may be very wide. */
function usualWidth(rows: readonly TopRow[]): number {
  const widths = rows.map((row) => filled(row).length).sort((a, b) => a - b);
  const quartile = rows.length < 8 ? widths.length - 1 : Math.ceil(widths.length * 0.75) - 1;
  return widths[quartile] ?? 0;
}

function isWorded(cells: readonly string[]): boolean {
  if (cells.some((cell) => numberOrDay.test(cell) || cell.length > longestHeader)) return false;
  return new Set(cells.map((cell) => cell.toLowerCase())).size > cells.length * 0.7;
}

/**
 * The headers that stand in a row. Where a heading spans two rows, its cell in the lower one is blank:
 * then the row above, if it is no title, says it.
 */
export function headersAt(rows: readonly TopRow[], line: number): string[] {
  const cells = rows.findLast((row) => row.line === line)?.cells ?? [];
  const above = rows.find((row) => row.line === line - 1);
  if (!above || filled(above).length < 2 || !isWorded(filled(above))) return [...cells];
  return cells.map((own, index) => (own.trim() === '' ? (above.cells[index] ?? '') : own));
}

/** Whether a sheet holds rows of records rather than notes: two columns and more, and a row below the headers. */
export function looksLikeRecords(rows: readonly TopRow[]): boolean {
  const [header] = headerRows(rows);
  if (!header) return false;
  const width = filled(header).length;
  return width >= 2 && rows.some((row) => row.line > header.line && filled(row).length * 2 >= width);
}

/** Headers that can be chosen from: each different, the blank ones by their place. */
export function distinctHeaders(headers: readonly string[]): string[] {
  const seen = new Set<string>();
  return headers.map((header, index) => {
    const name = header.trim() === '' ? `(column ${index + 1})` : header.trim().replaceAll(/\s+/g, ' ');
    let distinct = name;
    for (let count = 2; seen.has(distinct.toLowerCase()); count++) distinct = `${name} (${count})`;
    seen.add(distinct.toLowerCase());
    return distinct;
  });
}
