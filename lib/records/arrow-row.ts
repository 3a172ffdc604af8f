import type { CellText } from './cell-text.ts';
import { csvCell } from './csv-writing.ts';
import type { CutRow } from './cut-row.ts';

const encoder = new TextEncoder();

const beyondAscii = /[^\u0000-\u007f]/;

/** One row of columns of texts. */
export class ArrowRow implements CutRow {
  index = 0;

  constructor(private readonly columns: readonly (string | null)[][]) {}

  cell(index: number, text: CellText): boolean {
    const shown = this.shown(index);
    const bytes = encoder.encode(shown);
    return text.take(bytes, 0, bytes.length, false, beyondAscii.test(shown));
  }

  shown(index: number): string {
    return this.columns[index]?.[this.index] ?? '';
  }

  original(): string {
    return this.columns.map((_, index) => csvCell(this.shown(index))).join(',');
  }
}
