import { errorFault, noResult } from './cell-fault.ts';
import { serialDay, serialTime } from './number-format.ts';
import type { Chunks } from './record-source.ts';
import { RunText, unescaped } from './shared-texts.ts';
import type { Workbook } from './workbook.ts';
import { xmlEvents, type Attributes } from './xml-events.ts';

/** A row of a sheet that has something in it: its cells by column, null being blank. */
export interface SheetRow {
  /** Its number in the sheet. */
  readonly line: number;
  readonly cells: (string | null)[];
  /** What is wrong with a cell, by column. */
  faults: Map<number, string> | null;
  /** Texts that have no place of their own among the cells, so that the row is none: two in one place, or one beyond all. */
  stray: string[] | null;
}

/** Columns that a sheet can have, ECMA-376 part 1, 18.3.1.73. */
const mostColumns = 16_384;

const yesNo: Readonly<Record<string, string>> = { 1: 'yes', true: 'yes', 0: 'no', false: 'no' };

/** The rows of a sheet in batches, those without any cell left out. @throws where the sheet is damaged */
export async function* sheetRows(
  chunks: Chunks,
  workbook: Workbook,
  texts: readonly string[],
): AsyncGenerator<readonly SheetRow[], void, undefined> {
  const parser = new SheetParser(workbook, texts);
  for await (const _ of xmlEvents(chunks, parser)) {
    const rows = parser.taken();
    if (rows.length > 0) yield rows;
  }
}

/** How many rows of a sheet have something in them, counted as far as `most`. */
export async function rowsOfSheet(
  chunks: Chunks,
  workbook: Workbook,
  most: number,
  signal?: AbortSignal,
): Promise<number> {
  const texts = await workbook.texts();
  let count = 0;
  for await (const rows of sheetRows(chunks, workbook, texts)) {
    signal?.throwIfAborted();
    count += rows.length;
    if (count >= most) return most;
  }
  return count;
}

class SheetParser {
  #rows: SheetRow[] = [];
  #row: SheetRow | null = null;
  #line = 0;
  #column = -1;
  #cell: Attributes | null = null;
  #inValue = false;
  #value = '';
  #formula = false;
  #inData = false;
  readonly #run = new RunText();

  constructor(
    private readonly workbook: Workbook,
    private readonly texts: readonly string[],
  ) {}

  taken(): readonly SheetRow[] {
    const rows = this.#rows;
    this.#rows = [];
    return rows;
  }

  open(name: string, attributes: () => Attributes): void {
    if (name === 'sheetData') this.#inData = true;
    else if (name === 'row') this.#beginRow(Number(attributes()['r'] ?? NaN));
    else if (this.#row === null) this.#outside(name);
    else if (name === 'c') this.#beginCell(attributes());
    else if (name === 'v') this.#inValue = true;
    else if (name === 'f') this.#formula = true;
    else this.#run.open(name);
  }

  close(name: string): void {
    if (name === 'sheetData') this.#inData = false;
    if (this.#row === null) return;
    if (name === 'v') this.#inValue = false;
    else if (name === 'c') this.#endCell();
    else if (name === 'row') {
      if (this.#row.cells.length > 0 || this.#row.stray) this.#rows.push(this.#row);
      this.#row = null;
    } else this.#run.close(name);
  }

  text(text: string): void {
    if (this.#inValue) this.#value += text;
    else this.#run.add(text);
  }

  /** What would be passed over with all that is in it, were it not said. */
  #outside(name: string): void {
    if (name === 'c' && this.#inData) throw new Error('cells stand outside its rows');
  }

  /** Rows and cells may leave out where they stand, or say it wrongly: then they follow the one before. No two rows have one number. */
  #beginRow(line: number): void {
    if (this.#row) throw new Error('a row of a sheet stands inside another');
    this.#line = Number.isSafeInteger(line) && line > this.#line ? line : this.#line + 1;
    this.#column = -1;
    this.#row = { line: this.#line, cells: [], faults: null, stray: null };
  }

  #beginCell(attributes: Attributes): void {
    this.#cell = attributes;
    const column = columnOf(attributes['r'] ?? '');
    this.#column = column >= 0 ? column : this.#column + 1;
    this.#value = '';
    this.#formula = false;
    this.#run.begin();
  }

  #endCell(): void {
    if (!this.#cell || !this.#row) return;
    const value = this.#read(this.#cell['t'] ?? 'n', Number(this.#cell['s'] ?? -1));
    this.#cell = null;
    if (value === null || value === '') return;
    const { cells } = this.#row;
    if (this.#column >= mostColumns || (cells[this.#column] ?? null) !== null) {
      (this.#row.stray ??= []).push(value);
      return;
    }
    while (cells.length < this.#column) cells.push(null);
    cells[this.#column] = value;
  }

  #read(type: string, style: number): string | null {
    const value = this.#value;
    switch (type) {
      case 's': {
        if (value.trim() === '') return null;
        return this.texts[Number(value)] ?? this.#fault(value, 'points to a text that the workbook does not have');
      }
      case 'inlineStr':
        return unescaped(this.#run.text);
      case 'str':
        return unescaped(value);
      case 'b':
        return value === '' ? null : (yesNo[value.trim().toLowerCase()] ?? value);
      case 'e':
        return this.#fault(value, errorFault(value.trim()));
      case 'd':
        return value.trim().replace(/^(\d{4}-\d\d-\d\d)T[\d:.,Z+-]*$/, '$1');
      default:
        if (value.trim() !== '') return this.#number(value.trim(), style);
        return this.#formula ? this.#fault('(formula)', noResult) : null;
    }
  }

  #number(written: string, style: number): string {
    const number = Number(written);
    const shown = this.workbook.styles[style] ?? 'number';
    if (Number.isNaN(number)) return written;
    if (shown === 'number') return String(number);
    if (typeof shown === 'object')
      return Number.isInteger(number) ? String(number).padStart(shown.digits, '0') : String(number);
    if (shown === 'time' || (number >= 0 && number < 1 && !this.workbook.from1904)) return serialTime(number);
    return serialDay(number, this.workbook.from1904) ?? this.#fault(written, 'a day before 1900 or after 9999');
  }

  #fault(value: string, why: string): string {
    if (this.#row) (this.#row.faults ??= new Map()).set(this.#column, why);
    return value;
  }
}

/** The column of a place such as `AB12`, counted from 0; -1 where none is written. */
function columnOf(place: string): number {
  let column = 0;
  for (let at = 0; at < place.length; at++) {
    const letter = place.charCodeAt(at) & ~32;
    if (letter < 65 || letter > 90) break;
    column = column * 26 + letter - 64;
    if (column > mostColumns) return mostColumns;
  }
  return column - 1;
}
