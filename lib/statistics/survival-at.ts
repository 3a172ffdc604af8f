import { StatisticsError } from './statistics-error.ts';
import type { NumberColumn } from './survival-data.ts';
import type { SurvivalCurve } from './kaplan-meier.ts';

/** A survival curve read at one time. */
export interface SurvivalPoint {
  readonly time: number;
  /** Null, with the limits, where the curve has nothing to say; `reason` then says why. */
  readonly survival: number | null;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** At risk just before the curve's next time; 0 beyond its last. */
  readonly atRisk: number;
  readonly robustStandardError?: number | null;
  readonly robustLower?: number | null;
  readonly robustUpper?: number | null;
  readonly reason?: string;
}

/**
 * Survival at given times (any order, in the unit of the curve) with its error and limits: a step
 * function, so the value at `time` is that of the last exit at or before it. Before the first exit
 * it is 1; beyond the last it is 0 if the curve has reached 0 and otherwise null, never carried on.
 *
 * Source: Klein & Moeschberger §4.2. Outside check: R survival 3.5-3 `survfit` at its own times, 1e-9.
 *
 * @throws StatisticsError when a time is not a number.
 */
export function survivalAt(curve: SurvivalCurve, times: number): SurvivalPoint;
export function survivalAt(curve: SurvivalCurve, times: NumberColumn): SurvivalPoint[];
export function survivalAt(curve: SurvivalCurve, times: number | NumberColumn): SurvivalPoint | SurvivalPoint[] {
  if (typeof times === 'number') return pointAt(curve, times, null);
  return Array.from(times, (time, row) => pointAt(curve, time, row));
}

function pointAt(curve: SurvivalCurve, time: number, row: number | null): SurvivalPoint {
  if (Number.isNaN(time)) throw new StatisticsError('times', 'is not a number', row);
  const places = curve.time.length;
  if (places === 0) return unknownPoint(curve, time, 'no lives in this group');
  const place = lastAtOrBefore(curve.time, time);
  if (place < 0) return pointBeforeFirst(curve, time);
  const last = curve.time[places - 1] as number;
  if (time > last && (curve.survival[places - 1] as number) > 0)
    return unknownPoint(curve, time, `the last life under observation ends at ${last}`);
  const at = (values: Float64Array): number => values[place] as number;
  const next = curve.time[place] === time ? place : place + 1;
  return {
    time,
    survival: at(curve.survival),
    standardError: at(curve.standardError),
    lower: at(curve.lower),
    upper: at(curve.upper),
    atRisk: curve.atRisk[next] ?? 0,
    ...(curve.robustStandardError && curve.robustLower && curve.robustUpper
      ? {
          robustStandardError: at(curve.robustStandardError),
          robustLower: at(curve.robustLower),
          robustUpper: at(curve.robustUpper),
        }
      : {}),
  };
}

/** All at risk at the first exit have come so far without an event: the zero-event bound of `survivalLimits`. */
function pointBeforeFirst(curve: SurvivalCurve, time: number): SurvivalPoint {
  const atRisk = curve.atRisk[0] as number;
  const bound = (units: number): number =>
    curve.interval === 'log-log' && time > 0 ? Math.exp(Math.log((1 - curve.level) / 2) / units) : 1;
  const point = { time, survival: 1, standardError: 0, lower: bound(atRisk), upper: 1, atRisk };
  if (!curve.robustLower) return point;
  // Clusters at risk at the first exit were counted for its own bound; an event there leaves only those of the group.
  const first = curve.survival[0] === 1 && time > 0 ? (curve.robustLower[0] as number) : bound(curve.clusters ?? 0);
  return { ...point, robustStandardError: 0, robustLower: first, robustUpper: 1 };
}

function unknownPoint(curve: SurvivalCurve, time: number, reason: string): SurvivalPoint {
  const robust = curve.robustStandardError ? { robustStandardError: null, robustLower: null, robustUpper: null } : {};
  return { time, survival: null, standardError: null, lower: null, upper: null, atRisk: 0, ...robust, reason };
}

/** The last place whose time is at or before `time`; −1 when there is none. */
export function lastAtOrBefore(times: Float64Array, time: number): number {
  let low = 0;
  let high = times.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((times[middle] as number) <= time) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
