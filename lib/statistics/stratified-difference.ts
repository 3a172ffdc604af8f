import { toLevel, type Interval } from './interval.ts';
import { logNormalSurvival, standardNormalQuantile } from './numeric/normal.ts';
import { LEAST_CLUSTERS } from './regression-result.ts';
import { StatisticsError } from './statistics-error.ts';
import { toCodes, type CategoryColumn, type Codes, type NumberColumn } from './survival-data.ts';

export interface StratifiedData {
  /** 1 where it happened, 0 where not; one row an answer. */
  readonly event: NumberColumn;
  /** 1 for the group the difference is of, 0 for the one it is against. */
  readonly group: NumberColumn;
  readonly strata: CategoryColumn;
  /** Rows that may share a fate; without it each row stands for itself. */
  readonly cluster?: CategoryColumn;
}

export interface StratifiedDifference extends Interval {
  readonly standardError: number | null;
  readonly pValue: number | null;
  readonly level: number;
  /** Shares of group 0 and group 1 over the same weights of the strata; their difference is the value. */
  readonly shares: readonly [number, number] | null;
  /** Strata with rows of both groups; the others tell nothing. */
  readonly strata: number;
  /** Why the value is null; null when it is not. */
  readonly reason: string | null;
}

/**
 * Difference of two shares over strata, each weighted n₁n₀/(n₁+n₀): what differs between groups only in how many rows
 * each stratum has is no difference. The same number as least squares with a term a stratum; limits by the sandwich,
 * clusters moving as one, times clusters/(clusters − 1).
 *
 * Source: Greenland & Robins 1985, Biometrics 41:55 (weights of Mantel & Haenszel); Liang & Zeger 1986 (sandwich).
 * Outside check: R `lm` with its sandwich on the data set colon, 1e-10.
 *
 * @throws StatisticsError for columns of unlike length, an event or group other than 0 and 1, or a bad level.
 */
export function stratifiedDifference(
  data: StratifiedData,
  options: { readonly level?: number } = {},
): StratifiedDifference {
  const level = toLevel(options.level);
  const rows = data.event.length;
  const [event, group] = [binary('event', data.event, rows), binary('group', data.group, rows)];
  const strata = toCodes('strata', data.strata, rows);
  const sums = sumsOf(event, group, strata);
  const none = { value: null, lower: null, upper: null, standardError: null, pValue: null, shares: null };
  if (sums.weight === 0) return { ...none, level, strata: 0, reason: 'no stratum has rows of both groups' };
  const value = sums.shares[1] - sums.shares[0];
  const found = { value, level, shares: sums.shares, strata: sums.used, reason: null };
  const cluster = data.cluster === undefined ? null : toCodes('cluster', data.cluster, rows);
  const standardError = errorOf(event, group, strata, cluster, sums, value);
  if (standardError === null) return { ...found, lower: null, upper: null, standardError, pValue: null };
  const half = -standardNormalQuantile((1 - level) / 2) * standardError;
  const z = Math.abs(value) / standardError;
  const pValue = standardError > 0 ? 2 * Math.exp(logNormalSurvival(z)) : null;
  return { ...found, lower: value - half, upper: value + half, standardError, pValue };
}

function binary(name: string, column: NumberColumn, rows: number): Uint8Array {
  if (column.length !== rows) throw new StatisticsError(name, `has ${column.length} rows where ${rows} are wanted`);
  for (let row = 0; row < rows; row++)
    if (column[row] !== 0 && column[row] !== 1) throw new StatisticsError(name, `is ${column[row]}, not 0 or 1`, row);
  return Uint8Array.from(column);
}

interface Sums {
  /** Rows and events of each stratum, and rows of group 1. */
  readonly rows: Float64Array;
  readonly events: Float64Array;
  readonly exposed: Float64Array;
  readonly weight: number;
  readonly used: number;
  readonly shares: readonly [number, number];
}

function sumsOf(event: Uint8Array, group: Uint8Array, { count, codes }: Codes): Sums {
  const room = () => new Float64Array(count);
  const [rows, events, exposed, both] = [room(), room(), room(), room()] as const;
  const add = (to: Float64Array, at: number, one: number) => (to[at] = (to[at] as number) + one);
  for (let row = 0; row < event.length; row++) {
    const [at, happened, own] = [codes[row] as number, event[row] as number, group[row] as number];
    add(rows, at, 1);
    add(events, at, happened);
    add(exposed, at, own);
    add(both, at, happened * own);
  }
  let [weight, used, share0, share1] = [0, 0, 0, 0];
  for (let at = 0; at < count; at++) {
    const [n, n1, happened, bothOf] = [rows[at], exposed[at], events[at], both[at]] as [number, number, number, number];
    const n0 = n - n1;
    if (n1 === 0 || n0 === 0) continue;
    const own = (n1 * n0) / n;
    used++;
    weight += own;
    share1 += own * (bothOf / n1);
    share0 += own * ((happened - bothOf) / n0);
  }
  return { rows, events, exposed, weight, used, shares: [share0 / weight, share1 / weight] };
}

/** Null where a single cluster says nothing of how clusters differ. */
function errorOf(
  event: Uint8Array,
  group: Uint8Array,
  { codes }: Codes,
  cluster: Codes | null,
  { rows, events, exposed, weight }: Sums,
  value: number,
): number | null {
  const score = new Float64Array(cluster?.count ?? event.length);
  const met = new Uint8Array(score.length);
  for (let row = 0; row < event.length; row++) {
    const at = codes[row] as number;
    const [n, n1, happened] = [rows[at], exposed[at], events[at]] as [number, number, number];
    const apart = (group[row] as number) - n1 / n;
    if (apart === 0) continue;
    const own = cluster === null ? row : (cluster.codes[row] as number);
    met[own] = 1;
    score[own] = (score[own] as number) + apart * ((event[row] as number) - happened / n - value * apart);
  }
  const clusters = met.reduce((sum, one) => sum + one, 0);
  if (clusters < LEAST_CLUSTERS) return null;
  const squares = score.reduce((sum, one) => sum + one * one, 0);
  return Math.sqrt((squares * clusters) / (clusters - 1)) / weight;
}
