import type { CellText } from './cell-text.ts';

/** A row cut into cells, whatever kind of file it comes from. */
export interface CutRow {
  /** Puts a cell, trimmed, into `text`; false where it is not UTF-8 text. */
  cell(index: number, text: CellText): boolean;
  /** The cell as it stands in the file, for a reader's eyes. */
  shown(index: number): string;
  /** The whole row as it stands in the file. */
  original(): string;
}
