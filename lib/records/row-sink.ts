import type { CutRow } from './cut-row.ts';

/** What takes the rows of a file, whatever kind of file they come from. Each row is taken once, by `row` or by `broken`. */
export interface RowSink {
  /** Cells that a row must have; it may have more, all of them blank. */
  readonly width: number;
  /** Takes a row that has at least `width` cells; `cut` is another row as soon as this returns. */
  row(cut: CutRow, line: number): void;
  /** Takes a row that cannot be read as cells: it is set aside. */
  broken(line: number, reason: string, accepted: string, original: string): void;
  /** Whether `send` is due. */
  readonly full: boolean;
  /** Sends what is held on its way, once what went before has arrived. */
  send(): Promise<void>;
  /** Sends the rest and waits until all has arrived. */
  finish(): Promise<void>;
}

/**
 * Opens a sink for the rows below these headers, or says why the file cannot be used: `has no column …`.
 * Asked again with other headers where it says no and another row, or another sheet, may be meant.
 * A sparse file leaves out what is blank: it has no header for a column that no row fills.
 */
export type OpenRows = (headers: readonly string[], sparse?: boolean) => Promise<RowSink | string>;

/** How a reader came to its end: null where all rows were taken, else why the file as a whole cannot be used. */
export type Outcome = string | null;

/** Says what somebody should know of a file that is used: `has its headers in row 4`. */
export type Say = (note: string) => void;
