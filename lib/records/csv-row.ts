import { shownText, type CellText } from './cell-text.ts';
import type { CsvReader } from './csv-reader.ts';
import { doubled, wide } from './csv-record.ts';
import type { CutRow } from './cut-row.ts';
import { encodingOf, windowsText, type TextEncoding } from './text-encoding.ts';

const encoder = new TextEncoder();

/** So much text from the first letter beyond ASCII on tells the encoding. */
const tellingBytes = 2 ** 16;

function isWide(bytes: Uint8Array, start: number, end: number): boolean {
  for (let at = start; at < end; at++) if (bytes[at]! > 127) return true;
  return false;
}

/** The record that a CSV reader stands at, as a row. */
export class CsvRow implements CutRow {
  /** Null as long as everything was ASCII, which is the same in either. */
  encoding: TextEncoding | null;

  constructor(
    private readonly reader: CsvReader,
    encoding: TextEncoding | null,
  ) {
    this.encoding = encoding;
  }

  /** To be called for each record before its cells are looked at. */
  tellEncoding(): void {
    if (this.encoding !== null) return;
    const { bytes, cells, start, end, broken } = this.reader;
    // A broken line is looked at as far as it goes: of lines that are all broken there may be millions.
    if (broken ? !isWide(bytes, start, end) : (cells.marked & wide) === 0) return;
    const telling = bytes.subarray(start, start + tellingBytes);
    if (isWide(telling, 0, telling.length)) this.encoding = encodingOf(telling);
  }

  cell(index: number, text: CellText): boolean {
    const { bytes, cells } = this.reader;
    const { starts, ends, marks } = cells;
    const mark = marks[index]!;
    if ((mark & wide) !== 0 && this.encoding === 'windows-1252') {
      const decoded = encoder.encode(windowsText(bytes.subarray(starts[index], ends[index])));
      return text.take(decoded, 0, decoded.length, (mark & doubled) !== 0, true);
    }
    return text.take(bytes, starts[index]!, ends[index]!, (mark & doubled) !== 0, (mark & wide) !== 0);
  }

  shown(index: number): string {
    const { cells } = this.reader;
    const text = this.text(cells.starts[index]!, cells.ends[index]!);
    return (cells.marks[index]! & doubled) !== 0 ? text.replaceAll('""', '"') : text;
  }

  original(): string {
    return this.text(this.reader.start, this.reader.end);
  }

  /** What stands between two places of the reader's bytes. */
  text(start: number, end: number): string {
    const bytes = this.reader.bytes.subarray(start, end);
    return this.encoding === 'windows-1252' ? windowsText(bytes) : shownText(bytes);
  }
}
