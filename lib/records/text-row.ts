import type { CellText } from './cell-text.ts';
import { quotedCell } from '../../shared/csv-cell.ts';
import type { CutRow } from './cut-row.ts';

const encoder = new TextEncoder();

const beyondAscii = /[^\u0000-\u007f]/;

/** A row of a file whose cells are not bytes of text: of a sheet, of columns, of an object. */
export class TextRow implements CutRow {
  /** @param textOf gives the text of a cell of the current row, null being blank */
  constructor(
    private readonly width: () => number,
    private readonly textOf: (index: number) => string | null,
    private readonly faultOf: (index: number) => string | null = () => null,
  ) {}

  cell(index: number, text: CellText): boolean {
    const shown = this.shown(index);
    const bytes = encoder.encode(shown);
    return text.take(bytes, 0, bytes.length, false, beyondAscii.test(shown)) && this.faultOf(index) === null;
  }

  shown(index: number): string {
    return this.textOf(index) ?? '';
  }

  fault(index: number): string | null {
    return this.faultOf(index);
  }

  original(): string {
    return Array.from({ length: this.width() }, (_, index) => quotedCell(this.shown(index))).join(',');
  }
}
