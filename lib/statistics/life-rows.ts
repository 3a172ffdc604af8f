import type { CategoryColumn, Codes, NumberColumn } from './survival-data.ts';

/** Lives as exits with an event flag (1 failed, 0 still running). */
export interface ExitData {
  readonly exit: NumberColumn;
  readonly event: NumberColumn;
  readonly entry?: NumberColumn;
  readonly weight?: NumberColumn;
  readonly cluster?: CategoryColumn;
}

/**
 * Lives known to have ended in (lower, upper]: lower = upper is an exact life, upper = Infinity a
 * unit still running, lower = 0 one found failed at its first inspection.
 */
export interface IntervalData {
  readonly lower: NumberColumn;
  readonly upper: NumberColumn;
  readonly entry?: NumberColumn;
  readonly weight?: NumberColumn;
  readonly cluster?: CategoryColumn;
}

export type LifeData = ExitData | IntervalData;

export const EXACT = 0;
export const RIGHT = 1;
export const LEFT = 2;
export const INTERVAL = 3;
/** Nothing is known of a life with lower 0 (or its entry) and upper Infinity: such rows are left out. */
export const NOTHING = 255;

/** What the likelihoods read: one row per life that carries information, times as logs less `logUnit`. */
export interface LifeRows {
  readonly size: number;
  /** EXACT, RIGHT, LEFT or INTERVAL, by row. */
  readonly kind: Uint8Array;
  /** log of the exact life, of the censoring time, or of the upper end of the interval. */
  readonly log: Float64Array;
  /** log of the lower end where kind is INTERVAL; null when no row is. */
  readonly logLower: Float64Array | null;
  /** log of the entry time, −Infinity for none; null when no row enters late. */
  readonly logEntry: Float64Array | null;
  readonly weight: Float64Array | null;
  /** Position of each row in the caller's columns; null when all are kept in order. */
  readonly source: Int32Array | null;
  /** Their count is that of clusters with a row that says something. */
  readonly cluster: Codes | null;
  readonly logUnit: number;
  /** Σ weight of exact lives, and of all that failed (exact, left and interval). */
  readonly exactWeight: number;
  readonly failedWeight: number;
  readonly totalWeight: number;
  /** Latest age at which anything was seen, in the caller's unit. */
  readonly observedTo: number;
  /** −Σ weight · log t over exact lives, with t in the caller's unit: from log-time density to time density. */
  readonly logJacobian: number;
}
