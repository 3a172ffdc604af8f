import type { CellText } from './cell-text.ts';

/** A row cut into cells, whatever kind of file it comes from. */
export interface CutRow {
  /** Puts a cell, trimmed, into `text`; false where it has no readable text, or a `fault`. */
  cell(index: number, text: CellText): boolean;
  /** The cell as it stands in the file, for a reader's eyes. */
  shown(index: number): string;
  /** Why a cell has no value of its own, such as a spreadsheet's error; null or absent where nothing is known against it. */
  fault?(index: number): string | null;
  /** The header of a cell in the file, and what would be accepted there, where the column's own name and words are not the file's. */
  named?(index: number): string;
  accepted?(index: number): string;
  /** The whole row as it stands in the file. */
  original(): string;
}
