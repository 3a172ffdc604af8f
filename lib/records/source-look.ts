import type { SourceChoice } from '../../shared/source-choice.ts';
import { gathered, readHead } from './csv-head.ts';
import { headerRows, type TopRow } from './header-row.ts';
import { openPackage } from './office-package.ts';
import type { RecordSource } from './record-source.ts';
import { SourceReading } from './source-reading.ts';
import { sheetTops } from './workbook-rows.ts';
import { zipMembers } from './zip-archive.ts';

export interface SheetLook {
  readonly name: string;
  /** Whether it looks like records rather than notes. */
  readonly likely: boolean;
  /** Its first rows, as they are shown, and the number of the one that holds the headers. */
  readonly rows: readonly TopRow[];
  readonly headerRow: number | null;
}

/** What a file leaves open: which sheet, which row of headers. */
export interface SourceLook {
  readonly sheets: readonly SheetLook[];
}

/**
 * Looks at the top of a source, so that somebody can choose. A text is one sheet without a name; kinds
 * that leave no choice (Parquet, Arrow, JSON lines) have no sheets.
 * @throws where it is damaged or not to be had
 */
export async function lookAtSource(source: RecordSource, choice: SourceChoice = {}): Promise<SourceLook> {
  const reading = new SourceReading(source, undefined, () => undefined);
  try {
    const opened = await reading.open();
    switch (opened.content) {
      case 'zip': {
        const workbook = await openPackage(await zipMembers(await opened.bytes()));
        if (typeof workbook === 'string') return { sheets: [] };
        const tops = await sheetTops(workbook, choice);
        return {
          sheets: tops.map(({ sheet, likely, rows }) => ({ name: sheet.name, likely, ...headed(rows, choice) })),
        };
      }
      case 'text':
      case 'utf-16le':
      case 'utf-16be': {
        const head = await readHead(gathered(opened.chunks));
        return { sheets: typeof head === 'string' ? [] : [{ name: '', likely: true, ...headed(head.top, choice) }] };
      }
      default:
        return { sheets: [] };
    }
  } finally {
    await reading.close();
  }
}

const headed = (rows: readonly TopRow[], { headerRow }: SourceChoice): Pick<SheetLook, 'rows' | 'headerRow'> => ({
  rows,
  headerRow: headerRow ?? headerRows(rows)[0]?.line ?? null,
});
