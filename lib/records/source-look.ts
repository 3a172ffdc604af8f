import type { SourceChoice } from '../../shared/source-choice.ts';
import { gathered, readHead } from './csv-head.ts';
import { headerRows, type TopRow } from './header-row.ts';
import { openPackage } from './office-package.ts';
import type { RecordSource } from './record-source.ts';
import { rowsOfSheet } from './sheet-rows.ts';
import { SourceReading } from './source-reading.ts';
import { sheetTops } from './workbook-rows.ts';
import { zipMembers } from './zip-archive.ts';

export interface SheetLook {
  readonly name: string;
  /** Whether it looks like records rather than notes. */
  readonly likely: boolean;
  /** Rows that have something in them, those above the headers too. Null of a text, which is not read to its end. */
  readonly rowCount: number | null;
  /** Whether the sheet was not counted to its end. */
  readonly more: boolean;
  /** Its first rows, as they are shown, and the number of the one that is found to hold the headers. */
  readonly rows: readonly TopRow[];
  readonly headerRow: number | null;
}

/** What a file leaves open: which sheet, which row of headers. */
export interface SourceLook {
  readonly sheets: readonly SheetLook[];
}

/** A sheet that has as many rows or more is not counted on: nobody should wait for that. */
const mostCounted = 200_000;

/**
 * Looks at the top of a source, and on to a row of headers that was chosen, so that somebody can choose.
 * A text is one sheet without a name; kinds that leave no choice (Parquet, Arrow, JSON lines) have no sheets.
 * @throws where it is damaged or not to be had, and the signal's reason
 */
export async function lookAtSource(
  source: RecordSource,
  { headerRow }: SourceChoice = {},
  signal?: AbortSignal,
): Promise<SourceLook> {
  const reading = new SourceReading(source, signal, () => undefined);
  try {
    const opened = await reading.open();
    switch (opened.content) {
      case 'zip': {
        const workbook = await openPackage(await zipMembers(await opened.bytes()));
        if (typeof workbook === 'string') return { sheets: [] };
        const { sheet } = source;
        const tops = await sheetTops(workbook, {
          ...(sheet === undefined ? {} : { sheet }),
          ...(headerRow === undefined ? {} : { headerRow }),
        });
        const sheets: SheetLook[] = [];
        for (const { sheet, likely, rows } of tops) {
          const rowCount = await rowsOfSheet(sheet.stream(), workbook, mostCounted, signal);
          sheets.push({ name: sheet.name, likely, rowCount, more: rowCount === mostCounted, ...headed(rows) });
        }
        return { sheets };
      }
      case 'text':
      case 'utf-16le':
      case 'utf-16be': {
        const head = await readHead(gathered(opened.chunks));
        if (typeof head === 'string') return { sheets: [] };
        return { sheets: [{ name: '', likely: true, rowCount: null, more: false, ...headed(head.top) }] };
      }
      default:
        return { sheets: [] };
    }
  } finally {
    await reading.close();
  }
}

const headed = (rows: readonly TopRow[]): Pick<SheetLook, 'rows' | 'headerRow'> => ({
  rows,
  headerRow: headerRows(rows)[0]?.line ?? null,
});
