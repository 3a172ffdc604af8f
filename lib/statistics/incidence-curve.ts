import type { CurveInterval } from './confidence-limits.ts';
import type { RiskCounts } from './risk-counts.ts';

/**
 * Cumulative incidence of one cause in one group. Arrays share one length and order: distinct exit times
 * of the group, ascending. `events` are those of the cause.
 */
export interface IncidenceCurve extends RiskCounts {
  readonly group: string;
  readonly cause: number;
  readonly incidence: Float64Array;
  readonly standardError: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** Free of any event: 1 − the incidences of all causes. */
  readonly survival: Float64Array;
  readonly level: number;
  readonly interval: CurveInterval;
  readonly clusters?: number;
  readonly robustStandardError?: Float64Array;
  readonly robustLower?: Float64Array;
  readonly robustUpper?: Float64Array;
}
