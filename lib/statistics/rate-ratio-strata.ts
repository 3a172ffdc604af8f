import type { RateRows } from './event-rate.ts';
import { logNormalSurvival, standardNormalQuantile } from './numeric/normal.ts';
import type { Category } from './survival-data.ts';

/** Counts and exposures of both groups, one cell per stratum. */
export interface Tables {
  readonly compared: { readonly events: Float64Array; readonly exposure: Float64Array };
  readonly reference: { readonly events: Float64Array; readonly exposure: Float64Array };
}

export function tabulate(rows: RateRows, group: Category, strata: Category | null): Tables {
  const count = strata ? strata.levels.length : 1;
  const side = () => ({ events: new Float64Array(count), exposure: new Float64Array(count) });
  const tables = { compared: side(), reference: side() };
  for (let row = 0; row < rows.events.length; row++) {
    const cells = group.codes[row] === 1 ? tables.compared : tables.reference;
    const stratum = strata ? (strata.codes[row] as number) : 0;
    cells.events[stratum] = (cells.events[stratum] as number) + (rows.events[row] as number);
    cells.exposure[stratum] = (cells.exposure[stratum] as number) + (rows.exposure[row] as number);
  }
  return tables;
}

/** One stratum's part in the Mantel–Haenszel sums; null where it has no exposure on one side. */
export function stratum(tables: Tables, index: number) {
  const [a, b] = [tables.compared.events[index] as number, tables.reference.events[index] as number];
  const [t1, t0] = [tables.compared.exposure[index] as number, tables.reference.exposure[index] as number];
  return t1 > 0 && t0 > 0 ? { a, b, t1, t0, total: t1 + t0 } : null;
}

/** Mantel–Haenszel rate ratio: value (Rothman eq. 15-11), Greenland–Robins variance, chi-square without correction. */
export function mantelHaenszel(tables: Tables, level: number) {
  let [up, down, excess, variance] = [0, 0, 0, 0];
  for (let index = 0; index < tables.compared.events.length; index++) {
    const cell = stratum(tables, index);
    if (!cell) continue;
    const { a, b, t1, t0, total } = cell;
    up += (a * t0) / total;
    down += (b * t1) / total;
    excess += a - ((a + b) * t1) / total;
    variance += ((a + b) * t1 * t0) / total ** 2;
  }
  const pValue = variance > 0 ? 2 * Math.exp(logNormalSurvival(Math.abs(excess) / Math.sqrt(variance))) : null;
  const method = 'mantel-haenszel' as const;
  const value = down > 0 ? up / down : null;
  const reason = zeroReason(up, down);
  if (value === null || value === 0)
    return { method, value, lower: null, upper: null, standardErrorLog: null, pValue, exact: null, reason };
  const standardErrorLog = Math.sqrt(variance / (up * down));
  const factor = Math.exp(-standardNormalQuantile((1 - level) / 2) * standardErrorLog);
  return { method, value, lower: value / factor, upper: value * factor, standardErrorLog, pValue, exact: null, reason };
}

export const zeroReason = (up: number, down: number): string | null =>
  up > 0 && down > 0
    ? null
    : up === 0 && down === 0
      ? 'no events'
      : `no events in the ${up === 0 ? 'compared' : 'reference'} group, so the limits cannot be approximated`;
