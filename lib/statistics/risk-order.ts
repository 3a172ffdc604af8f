import { fetchMarks, radixOrder, wholeSpread, type SortedParts } from './numeric/radix-order.ts';
import { sortTogether } from './numeric/sort-order.ts';
import type { Codes } from './survival-data.ts';

/**
 * Rows laid out for one sweep along time: sorted once by exit, split into parts (groups or strata)
 * without a second sort, and beside them the late entrants of each part by entry.
 */
export interface RiskOrder {
  readonly parts: number;
  /** Rows by part, then exit; part p holds places start[p] to start[p + 1]. */
  readonly rows: Uint32Array;
  /** exit of each of `rows`. */
  readonly time: Float64Array;
  readonly start: Uint32Array;
  /** The mark of each of `rows`; empty when none were given. */
  readonly marks: Uint8Array;
  /** Rows that enter at or after the first exit of all, by part, then entry; the others are at risk from the start. */
  readonly lateRows: Uint32Array;
  /** entry of each of `lateRows`. */
  readonly lateTime: Float64Array;
  readonly lateStart: Uint32Array;
  /** Rows entering from here on are late. */
  readonly firstExit: number;
}

/**
 * Lays out rows for the sweeps; O(rows) for the times of real lives. Where times are not whole numbers
 * rows are split into parts before they are sorted: each part then fits the processor's cache. `marks` is a
 * byte of each row (its event, say) that the sweeps will read: it travels with the row.
 */
export function riskOrder(
  exit: Float64Array,
  entry: Float64Array | null,
  part: Codes | null,
  marks: Uint8Array | null = null,
): RiskOrder {
  const parts = part ? part.count : 1;
  const byExit = sortedParts(exit, null, part, parts, marks);
  const firstExit = firstOf(byExit);
  const byEntry = sortedParts(entry ?? exit, lateEntrants(entry, firstExit), part, parts, null);
  return {
    parts,
    rows: byExit.order,
    time: byExit.values,
    start: byExit.start,
    marks: byExit.marks,
    lateRows: byEntry.order,
    lateTime: byEntry.values,
    lateStart: byEntry.start,
    firstExit,
  };
}

/** The smallest value of all parts. */
function firstOf({ values, start }: SortedParts): number {
  let least = Infinity;
  for (let part = 0; part + 1 < start.length; part++) {
    const first = start[part] as number;
    if (first < (start[part + 1] as number)) least = Math.min(least, values[first] as number);
  }
  return least;
}

function lateEntrants(entry: Float64Array | null, firstExit: number): Uint32Array {
  if (!entry) return new Uint32Array(0);
  const rows = new Uint32Array(entry.length);
  let count = 0;
  for (let row = 0; row < entry.length; row++) {
    rows[count] = row;
    if ((entry[row] as number) >= firstExit) count++;
  }
  return rows.subarray(0, count);
}

/** The given rows (all when null) by part and, within each, by value; ties in row order. */
function sortedParts(
  column: Float64Array,
  rows: Uint32Array | null,
  part: Codes | null,
  parts: number,
  marks: Uint8Array | null,
): SortedParts {
  const codes = parts > 1 && part ? part.codes : null;
  const spread = wholeSpread(column, rows, parts);
  if (spread) return radixOrder({ column, rows, codes, parts, marks }, spread);
  const start = startOfParts(rows, codes, column.length, parts);
  const count = rows ? rows.length : column.length;
  const next = start.slice();
  const values = new Float64Array(count);
  const order = new Uint32Array(count);
  for (let place = 0; place < count; place++) {
    const row = rows ? (rows[place] as number) : place;
    const code = codes ? (codes[row] as number) : 0;
    const target = next[code] as number;
    next[code] = target + 1;
    values[target] = column[row] as number;
    order[target] = row;
  }
  for (let code = 0; code < parts; code++) {
    const [from, to] = [start[code] as number, start[code + 1] as number];
    sortTogether(values.subarray(from, to), order.subarray(from, to));
  }
  return { values, order, start, marks: marks ? fetchMarks(marks, order) : new Uint8Array(0) };
}

/** Where each part's rows begin, and the number of rows at the end. */
function startOfParts(rows: Uint32Array | null, codes: Int32Array | null, length: number, parts: number): Uint32Array {
  const count = rows ? rows.length : length;
  const start = new Uint32Array(parts + 1);
  if (!codes) start[1] = count;
  else
    for (let place = 0; place < count; place++) {
      const code = codes[rows ? (rows[place] as number) : place] as number;
      start[code + 1] = (start[code + 1] as number) + 1;
    }
  for (let code = 1; code <= parts; code++) start[code] = (start[code] as number) + (start[code - 1] as number);
  return start;
}
