import { isBlank, lineFeed, quote, returnMark, space, tab } from './characters.ts';

/** Results of cutting that are no position: more bytes are needed; the quote is not closed; text follows it. */
export const needsMore = -1;
export const unclosed = -2;
export const afterQuote = -3;

/** What is to be done to a cell before it can be read; 0 where nothing is. */
export const doubled = 1;
export const wide = 2;

/**
 * The cells of one record: cell i is `bytes[starts[i] … ends[i])` without its quotes. `marks[i]`
 * says whether quotes inside it are still `doubled`, and whether it has bytes beyond ASCII, so is `wide`.
 */
export class CutCells {
  count = 0;
  starts = new Int32Array(64);
  ends = new Int32Array(64);
  marks = new Uint8Array(64);
  /** The marks of all cells together. */
  marked = 0;
  /** Line ends inside quoted cells. */
  lineBreaks = 0;
  /** End of the record, its line end left out. */
  recordEnd = 0;

  add(start: number, end: number, marks: number): void {
    const cell = this.count++;
    if (cell >= this.starts.length) this.#grow();
    this.starts[cell] = start;
    this.ends[cell] = end;
    this.marks[cell] = marks;
    this.marked |= marks;
  }

  #grow(): void {
    const room = this.starts.length * 2;
    const starts = new Int32Array(room);
    const ends = new Int32Array(room);
    const marks = new Uint8Array(room);
    starts.set(this.starts);
    ends.set(this.ends);
    marks.set(this.marks);
    Object.assign(this, { starts, ends, marks });
  }
}

/**
 * Cuts the record that begins at `from` into cells.
 * @param to where the bytes at hand end
 * @param last whether nothing comes after them
 * @returns where the next record begins, or one of the three results above
 */
export function cutRecord(
  bytes: Uint8Array,
  from: number,
  to: number,
  last: boolean,
  delimiter: number,
  cells: CutCells,
): number {
  cells.count = 0;
  cells.marked = 0;
  cells.lineBreaks = 0;
  let at = from;
  for (;;) {
    if (at < to && bytes[at] === quote) {
      at = cutQuoted(bytes, at + 1, to, last, delimiter, cells);
      if (at < 0) return at;
    } else {
      const start = at;
      let seen = 0;
      let byte = 0;
      while (at < to && (byte = bytes[at]!) !== delimiter && byte !== lineFeed && byte !== returnMark) {
        seen |= byte;
        at++;
      }
      cells.add(start, at, seen > 127 ? wide : 0);
    }
    if (at < to && bytes[at] === delimiter) {
      at++;
      continue;
    }
    if (at >= to && !last) return needsMore;
    cells.recordEnd = at;
    return afterLineEnd(bytes, at, to, last);
  }
}

/** Cuts a quoted cell whose text begins at `start`; returns where its delimiter or line end stands. */
function cutQuoted(
  bytes: Uint8Array,
  start: number,
  to: number,
  last: boolean,
  delimiter: number,
  cells: CutCells,
): number {
  let at = start;
  let seen = 0;
  let marks = 0;
  for (; ; at++) {
    if (at >= to) return last ? unclosed : needsMore;
    const byte = bytes[at]!;
    seen |= byte;
    if (byte === quote) {
      if (at + 1 >= to && !last) return needsMore;
      if (at + 1 >= to || bytes[at + 1] !== quote) break;
      marks = doubled;
      at++;
    } else if (byte === lineFeed) {
      if (at === start || bytes[at - 1] !== returnMark) cells.lineBreaks++;
    } else if (byte === returnMark) cells.lineBreaks++;
  }
  cells.add(start, at, seen > 127 ? marks | wide : marks);
  at++;
  while (at < to && (bytes[at] === space || (bytes[at] === tab && delimiter !== tab))) at++;
  if (at >= to) return last ? at : needsMore;
  const byte = bytes[at];
  return byte === delimiter || byte === lineFeed || byte === returnMark ? at : afterQuote;
}

/** Where the line that goes on at `from` ends, or `to`. */
export function lineEnd(bytes: Uint8Array, from: number, to: number): number {
  let at = from;
  while (at < to && bytes[at] !== lineFeed && bytes[at] !== returnMark) at++;
  return at;
}

/** The place after the line end at `end`, be it LF, CR or CRLF; needs the byte after a CR to tell. */
export function afterLineEnd(bytes: Uint8Array, end: number, to: number, last: boolean): number {
  if (end >= to) return last ? end : needsMore;
  if (bytes[end] === lineFeed) return end + 1;
  if (end + 1 >= to) return last ? end + 1 : needsMore;
  return bytes[end + 1] === lineFeed ? end + 2 : end + 1;
}

/** Whether a cell or line holds nothing but spaces. */
export function isBlankSpan(bytes: Uint8Array, start: number, end: number): boolean {
  for (let at = start; at < end; at++) if (!isBlank(bytes[at]!)) return false;
  return true;
}
