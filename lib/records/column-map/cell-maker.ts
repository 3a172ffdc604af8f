import type { ColumnMap, ColumnSource } from '../../../shared/column-map.ts';
import type { RecordColumn } from '../../../shared/record-tables.ts';
import type { CellColumn } from '../cell-column.ts';
import { cellColumnOf } from '../cell-column-of.ts';
import { CellText } from '../cell-text.ts';
import type { CutRow } from '../cut-row.ts';
import { conversionOf, type Conversion } from './conversion.ts';
import { rowIdentity } from './row-identity.ts';

/** One of our cells, as bytes of text; blank = not known. A fault says why there is none. */
export interface MadeCell {
  readonly bytes: Uint8Array;
  readonly fault: string | null;
}

/** Makes the cells of one of our columns out of rows of the file. */
export interface CellMaker {
  readonly column: RecordColumn;
  /** Places in the file's row that it reads, and the headers there. */
  readonly cells: readonly number[];
  readonly headers: readonly string[];
  readonly accepted: string;
  make(row: CutRow): MadeCell;
  /** The cell that may go through as it stands, if there is one. */
  readonly through: number | null;
  /** Cells that could not be read and count as not known, as the map says. */
  leftBlank: number;
}

const encoder = new TextEncoder();
const decoder = new TextDecoder('utf-8', { ignoreBOM: true });
export const blankCell: MadeCell = { bytes: new Uint8Array(0), fault: null };
export const madeCell = (text: string): MadeCell => ({ bytes: encoder.encode(text), fault: null });

const held = new CellText();

/** The trimmed text of a cell, or null where it has none that can be read. */
export function textOfCell(row: CutRow, cell: number): string | null {
  if (!row.cell(cell, held)) return null;
  const { bytes, start, end } = held;
  let text = '';
  for (let at = start; at < end; at++) {
    const byte = bytes[at]!;
    if (byte > 127 || at - start > 64) return decoder.decode(bytes.subarray(start, end));
    text += String.fromCharCode(byte);
  }
  return text;
}

export const unreadable = (row: CutRow, cell: number): string => row.fault?.(cell) ?? 'not readable as text';

/** How many different texts of a column are remembered with what became of them. */
const mostRemembered = 50_000;

/** @param places where each header stands in the file's rows */
export function cellMaker(
  source: ColumnSource,
  column: RecordColumn,
  map: ColumnMap,
  places: ReadonlyMap<string, number>,
): CellMaker {
  const simple = { column, cells: [], headers: [], through: null, leftBlank: 0 };
  if (source.fixed !== undefined) {
    const fixed = madeCell(source.fixed);
    return { ...simple, accepted: `what the column map says for every row: ${source.fixed}`, make: () => fixed };
  }
  if (source.made !== undefined) {
    const cells = map.recognised.headers.flatMap((header) => places.get(header) ?? []);
    const make = (row: CutRow) =>
      madeCell(
        rowIdentity(
          map.source,
          cells.map((cell) => row.shown(cell).trim()),
        ),
      );
    return { ...simple, accepted: 'any row', make };
  }
  return new ConvertedCells(source, column, conversionOf(source, column, map), places);
}

class ConvertedCells implements CellMaker {
  readonly cells: readonly number[];
  readonly headers: readonly string[];
  readonly accepted: string;
  readonly through: number | null;
  leftBlank = 0;
  readonly #conversion: Conversion;
  readonly #remembered = new Map<string, MadeCell>();
  /** Reads a cell on trial, where one that cannot be read counts as not known. */
  readonly #trial: CellColumn | null;

  constructor(
    source: ColumnSource,
    readonly column: RecordColumn,
    conversion: Conversion,
    places: ReadonlyMap<string, number>,
  ) {
    this.#conversion = conversion;
    this.headers = conversion.headers;
    this.cells = conversion.headers.map((header) => places.get(header)!);
    this.accepted = conversion.accepted;
    this.#trial = source.unreadable === 'blank' ? cellColumnOf(column, 1) : null;
    this.through = conversion.unchanged && !this.#trial ? this.cells[0]! : null;
  }

  make(row: CutRow): MadeCell {
    const texts: string[] = [];
    for (let part = 0; part < this.cells.length; part++) {
      const text = textOfCell(row, this.cells[part]!);
      if (text === null) return this.#faulty(unreadable(row, this.cells[part]!));
      texts.push(text);
    }
    if (!this.#conversion.repeats) return this.#converted(texts);
    const key = texts.length === 1 ? texts[0]! : texts.join('\u001f');
    const known = this.#remembered.get(key);
    if (known) return this.#trial && known.fault !== null ? this.#faulty(known.fault) : known;
    if (this.#remembered.size >= mostRemembered) this.#remembered.clear();
    const made = this.#try(texts);
    this.#remembered.set(key, made);
    return this.#trial && made.fault !== null ? this.#faulty(made.fault) : made;
  }

  #converted(texts: readonly string[]): MadeCell {
    const made = this.#try(texts);
    return this.#trial && made.fault !== null ? this.#faulty(made.fault) : made;
  }

  #try(texts: readonly string[]): MadeCell {
    const read = this.#conversion.convert(texts);
    if ('fault' in read) return { bytes: blankCell.bytes, fault: read.fault };
    const made = read.text === '' ? blankCell : madeCell(read.text);
    if (!this.#trial || made === blankCell) return made;
    held.take(made.bytes, 0, made.bytes.length, false, false);
    return this.#trial.write(0, held) ? made : { ...made, fault: 'nothing that this column can mean' };
  }

  #faulty(fault: string): MadeCell {
    if (!this.#trial) return { bytes: blankCell.bytes, fault };
    this.leftBlank++;
    return blankCell;
  }
}
