import { shownText, type CellText } from './cell-text.ts';
import type { CsvReader } from './csv-reader.ts';
import type { CutRow } from './cut-row.ts';

/** The record that a CSV reader stands at, as a row. */
export class CsvRow implements CutRow {
  constructor(private readonly reader: CsvReader) {}

  cell(index: number, text: CellText): boolean {
    const { bytes, cells } = this.reader;
    const { starts, ends, doubled, wide } = cells;
    return text.take(bytes, starts[index]!, ends[index]!, doubled[index] === 1, wide[index] === 1);
  }

  shown(index: number): string {
    const { bytes, cells } = this.reader;
    const text = shownText(bytes.subarray(cells.starts[index], cells.ends[index]));
    return cells.doubled[index] === 1 ? text.replaceAll('""', '"') : text;
  }

  original(): string {
    return shownText(this.reader.bytes.subarray(this.reader.start, this.reader.end));
  }
}
