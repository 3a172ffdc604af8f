import type { SourceChoice } from '../../shared/source-choice.ts';
import { headerRows, headersAt, looksLikeRecords, topRows, type TopRow } from './header-row.ts';
import type { OpenRows, Outcome, RowSink, Say } from './row-sink.ts';
import { sheetRows, type SheetRow } from './sheet-rows.ts';
import { TextRow } from './text-row.ts';
import type { Workbook, WorkbookSheet } from './workbook.ts';

type Batches = AsyncGenerator<readonly SheetRow[], void, undefined>;

/** What stands at the top of a sheet. */
export interface SheetTop {
  readonly sheet: WorkbookSheet;
  /** All of the same width. */
  readonly rows: readonly TopRow[];
  readonly likely: boolean;
}

/** No cell of a sheet is meant to be longer: the program itself holds 32,767 characters. */
const longestCell = 2 ** 20;

/**
 * Reads one sheet of a workbook into rows, numbered as the sheet numbers them. Without a choice it is
 * the first sheet in sight that looks like records and whose headers serve; the others are named.
 */
export async function readWorkbookRows(
  workbook: Workbook,
  openRows: OpenRows,
  choice: SourceChoice,
  say: Say,
): Promise<Outcome> {
  const names = workbook.sheets.map(({ name }) => name).join(', ');
  const tops = await sheetTops(workbook, choice);
  if (tops.length === 0) return `has no sheet ${choice.sheet ?? 'of cells'}; its sheets are ${names || 'none'}`;
  let refused: string | null = null;
  for (const top of inOrder(tops)) {
    for (const line of linesFor(top, choice)) {
      const headers = headersAt(top.rows, line);
      const rows = await openRows(headers);
      if (typeof rows === 'string') {
        refused ??= tops.length > 1 ? `in its sheet ${top.sheet.name} ${rows}` : rows;
        continue;
      }
      sayWhere(top, tops, line, say);
      await readSheet(top.sheet, workbook, line, headers, rows, say);
      return null;
    }
  }
  if (choice.headerRow !== undefined) return refused ?? `has no row ${choice.headerRow} that could hold headers`;
  return refused ?? `has nothing in its sheets; they are ${names}`;
}

/** The tops of all sheets that may be meant. */
export async function sheetTops(workbook: Workbook, { sheet, headerRow }: SourceChoice): Promise<SheetTop[]> {
  const { sheets } = workbook;
  const seen = sheets.filter(({ hidden }) => !hidden);
  const meant = sheet !== undefined ? sheets.filter(({ name }) => name === sheet) : seen.length > 0 ? seen : sheets;
  const texts = await workbook.texts();
  const tops: SheetTop[] = [];
  for (const one of meant) {
    const rows = await topOf(sheetRows(one.stream(), workbook, texts), headerRow ?? 0);
    tops.push({ sheet: one, rows, likely: looksLikeRecords(rows) });
  }
  return tops;
}

/** Some rows from the top, and on to a row that was asked for. */
async function topOf(batches: Batches, atLeast: number): Promise<TopRow[]> {
  const rows: SheetRow[] = [];
  for await (const batch of batches) {
    for (const row of batch) if (rows.length < topRows || row.line <= atLeast) rows.push(row);
    if (rows.length >= topRows && batch.at(-1)!.line >= atLeast) break;
  }
  const width = rows.reduce((widest, { cells }) => Math.max(widest, cells.length), 0);
  return rows.map(({ line, cells }) => ({ line, cells: Array.from({ length: width }, (_, at) => cells[at] ?? '') }));
}

const inOrder = (tops: readonly SheetTop[]): SheetTop[] => [
  ...tops.filter(({ likely }) => likely),
  ...tops.filter(({ likely }) => !likely),
];

const linesFor = ({ rows }: SheetTop, { headerRow }: SourceChoice): number[] =>
  headerRow !== undefined
    ? rows.flatMap(({ line }) => (line === headerRow ? [line] : []))
    : headerRows(rows).map(({ line }) => line);

function sayWhere(top: SheetTop, tops: readonly SheetTop[], line: number, say: Say): void {
  const [first] = top.rows;
  const others = tops.filter((other) => other !== top && other.likely).map(({ sheet }) => sheet.name);
  const at = line > (first?.line ?? 1) ? `, headers in row ${line}` : '';
  if (others.length > 0) say(`was read from its sheet ${top.sheet.name}${at}; not read: ${others.join(', ')}`);
  else if (tops.length > 1) say(`was read from its sheet ${top.sheet.name}${at}`);
  else if (at !== '') say(`has its headers in row ${line}`);
}

async function readSheet(
  sheet: WorkbookSheet,
  workbook: Workbook,
  headerLine: number,
  headers: readonly string[],
  rows: RowSink,
  say: Say,
): Promise<void> {
  let row: SheetRow = { line: 0, cells: [], faults: null, stray: null };
  let stray = 0;
  const cut = new TextRow(
    () => Math.max(rows.width, row.cells.length),
    (index) => row.cells[index] ?? null,
    (index) => row.faults?.get(index) ?? null,
  );
  let below = false;
  for await (const batch of sheetRows(sheet.stream(), workbook, await workbook.texts())) {
    for (row of batch) {
      if (!below) below = row.line === headerLine;
      else if (!isBlank(row)) takeRow(row, cut, rows);
      if (stray === 0 && below && row.line !== headerLine && row.cells.length > rows.width) stray = row.line;
      if (rows.full) await rows.send();
    }
  }
  await rows.finish();
  if (stray > 0 && headers.length >= rows.width) say(`has cells beside its headers, first in row ${stray}; not used`);
}

const isBlank = ({ cells, stray }: SheetRow): boolean =>
  stray === null && cells.every((cell) => cell === null || cell.trim() === '');

function takeRow(row: SheetRow, cut: TextRow, rows: RowSink): void {
  const long = row.cells.some((cell) => cell !== null && cell.length > longestCell);
  if (!long && row.stray === null) {
    rows.row(cut, row.line);
    return;
  }
  const shown = [...row.cells, ...(row.stray ?? [])].map((cell) => cell?.slice(0, 1000) ?? '').join(',');
  if (long) rows.broken(row.line, 'a cell is too long', `cells under ${longestCell} characters`, shown);
  else
    rows.broken(
      row.line,
      'a cell stands beyond the last column, or where another stands',
      'one cell in each place',
      shown,
    );
}
