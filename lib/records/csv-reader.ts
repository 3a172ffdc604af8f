import { comma, lineFeed, quote, returnMark } from './characters.ts';
import {
  afterLineEnd,
  afterQuote,
  CutCells,
  cutRecord,
  isBlankSpan,
  lineEnd,
  needsMore,
  unclosed,
} from './csv-record.ts';

/** Why a line was given up, or null where the record could be cut into cells. */
export type Break = 'unclosed' | 'after-quote' | 'too-long' | null;

/** No row is meant to be longer, in bytes: beyond it a quote counts as never closed, a line as no row. */
export const longestRecord = 2 ** 20;

/** Fewer delimiters than these may well stand in a sentence, and prove no row. */
const tellingDelimiters = 3;

/**
 * Cuts a stream of UTF-8 into records by RFC 4180, in place and without a string, keeping account
 * of every line. A quoted cell may run over several lines; where that makes no sense (the quote is
 * never closed, text follows it, the number of cells is wrong, or a line inside has exactly the
 * delimiters of a row) only the first line is given up and reading goes on with the next.
 *
 * Feed it with `push`, then call `next` until it answers false. What comes out does not hang on
 * how the bytes are divided among the pushes.
 */
export class CsvReader {
  /** What is held now; the cells of the current record point into it. */
  bytes = new Uint8Array(0);
  readonly cells = new CutCells();
  /** Line on which the current record begins, counted from 1. */
  line = 0;
  broken: Break = null;
  start = 0;
  /** End of the current record, its line end left out. */
  end = 0;
  /** Cells that a row must have before a record of several lines is believed; 0 = not known yet. */
  columns = 0;
  /** Cells that it may have, all beyond `columns` blank: some programs end each row with a delimiter. */
  widest = 0;

  /** Room for what is held, used again and again. */
  #room = new Uint8Array(0);
  #at = 0;
  #last = false;
  #nextLine = 1;
  /** In the middle of a line that was given up for its length. */
  #skipping = false;

  constructor(public delimiter: number = comma) {}

  /** Takes the next bytes; what was not used up before is kept in front of them. What `bytes` held until now is gone. */
  push(chunk: Uint8Array, last: boolean): void {
    const rest = this.bytes.subarray(this.#at);
    const length = rest.length + chunk.length;
    if (length > this.#room.length) this.#room = new Uint8Array(length * 2);
    this.#room.set(rest);
    this.#room.set(chunk, rest.length);
    this.bytes = this.#room.subarray(0, length);
    this.#at = 0;
    this.#last = last;
  }

  /** Moves to the next record that is not a blank line; false if more bytes are needed or none are left. */
  next(): boolean {
    for (;;) {
      if (this.#skipping && !this.#skip()) return false;
      const { bytes, cells } = this;
      if (this.#at >= bytes.length) return false;
      const to = Math.min(bytes.length, this.#at + longestRecord);
      const last = this.#last && to === bytes.length;
      const after = cutRecord(bytes, this.#at, to, last, this.delimiter, cells);
      if (after === needsMore && to === bytes.length && to - this.#at < longestRecord) return false;
      if (after < 0) return this.#giveUp(after, to);
      if (cells.lineBreaks > 0 && this.columns > 0 && !this.#believable()) return this.#giveUp(unclosed, to);
      this.#accept(after);
      if (cells.count > 1 || bytes[this.start] === quote || !isBlankSpan(bytes, this.start, this.end)) return true;
    }
  }

  /** Whether the row has more cells than columns, and something in them. */
  hasSurplus(): boolean {
    const { count, starts, ends } = this.cells;
    for (let cell = this.columns; cell < count; cell++) {
      if (!isBlankSpan(this.bytes, starts[cell]!, ends[cell]!)) return true;
    }
    return false;
  }

  #accept(after: number): void {
    this.broken = null;
    this.start = this.#at;
    this.end = this.cells.recordEnd;
    this.line = this.#nextLine;
    this.#nextLine += 1 + this.cells.lineBreaks;
    this.#at = after;
  }

  /** Gives up the first line of what stands at hand, as soon as it is known where that line ends. */
  #giveUp(why: number, to: number): boolean {
    const end = lineEnd(this.bytes, this.#at, to);
    const after = afterLineEnd(this.bytes, end, this.bytes.length, this.#last);
    const tooLong = end === to && to - this.#at === longestRecord;
    if (!tooLong && after === needsMore) return false;
    this.broken = tooLong ? 'too-long' : why === afterQuote ? 'after-quote' : 'unclosed';
    this.start = this.#at;
    this.end = end;
    this.line = this.#nextLine++;
    this.#skipping = tooLong;
    this.#at = tooLong ? end : after;
    return true;
  }

  /** Passes over the rest of a line; false if its end has not come yet. */
  #skip(): boolean {
    const end = farLineEnd(this.bytes, this.#at);
    const after = afterLineEnd(this.bytes, end, this.bytes.length, this.#last);
    this.#skipping = after === needsMore;
    // A CR at the end is kept, to be looked at together with what follows.
    this.#at = this.#skipping ? end : after;
    return !this.#skipping;
  }

  /** Whether a record of several lines can be meant as one. */
  #believable(): boolean {
    const { cells, columns } = this;
    if (cells.count < columns || (cells.count > columns && this.hasSurplus())) return false;
    if (columns - 1 < tellingDelimiters) return true;
    let at = lineEnd(this.bytes, this.#at, cells.recordEnd);
    while (at < cells.recordEnd) {
      const start = afterLineEnd(this.bytes, at, cells.recordEnd, true);
      at = lineEnd(this.bytes, start, cells.recordEnd);
      const found = this.#delimitersIn(start, at);
      if (found >= columns - 1 && found < Math.max(columns, this.widest)) return false;
    }
    return true;
  }

  #delimitersIn(start: number, end: number): number {
    let count = 0;
    for (let at = start; at < end; at++) if (this.bytes[at] === this.delimiter) count++;
    return count;
  }
}

/** Where a line ends that may go on for gigabytes: the language's own search is faster there than a loop. */
function farLineEnd(bytes: Uint8Array, from: number): number {
  const feed = bytes.indexOf(lineFeed, from);
  const rest = feed < 0 ? bytes : bytes.subarray(0, feed);
  const mark = rest.indexOf(returnMark, from);
  return mark < 0 ? rest.length : mark;
}
