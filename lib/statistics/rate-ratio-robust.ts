import tCdf from '@stdlib/stats-base-dists-t-cdf';
import tQuantile from '@stdlib/stats-base-dists-t-quantile';
import type { RateRows } from './event-rate.ts';
import type { Interval } from './interval.ts';
import { jackknife } from './rate-jackknife.ts';
import { stratum, zeroReason, type Tables } from './rate-ratio-strata.ts';
import type { Category } from './survival-data.ts';

export interface RobustRatio extends Interval {
  readonly clusters: number;
  readonly standardErrorLog: number | null;
  readonly pValue: number | null;
  readonly reason: string | null;
}

/**
 * Limits of the Mantel–Haenszel ratio (of the plain ratio, in one stratum) from the jackknife over clusters: the ratio
 * anew with each cluster left out, Student's t on one less than the clusters in the group that has fewer.
 */
export function robustRatio(
  rows: RateRows,
  group: Category,
  strata: Category | null,
  tables: Tables,
  cluster: Category,
  level: number,
): RobustRatio {
  const parts = Array.from(tables.compared.events, (_, index) => sums(tables, index));
  const up = parts.reduce((total, part) => total + part.up, 0);
  const down = parts.reduce((total, part) => total + part.down, 0);
  const value = down > 0 ? up / down : null;
  const without: number[] = [];
  const sides: [number, number] = [0, 0];
  for (const members of rowsByCluster(cluster)) {
    const watched = members.filter((row) => (rows.exposure[row] as number) > 0);
    if (watched.length === 0) continue;
    for (const side of [0, 1] as const) if (watched.some((row) => group.codes[row] === side)) sides[side]++;
    const left = leaveOut(watched, rows, group, strata, tables, parts);
    without.push(Math.log(up + left.up) - Math.log(down + left.down));
  }
  const clusters = without.length;
  const whole = value === null || value === 0 ? Infinity : Math.log(value);
  const { standardErrorLog, reason } = jackknife(whole, without);
  const degrees = Math.min(...sides) - 1;
  if (value === null || standardErrorLog === null || degrees < 1) {
    const why = zeroReason(up, down) ?? reason ?? 'a group has fewer than two clusters';
    return { value, lower: null, upper: null, clusters, standardErrorLog: null, pValue: null, reason: why };
  }
  const factor = Math.exp(tQuantile(1 - (1 - level) / 2, degrees) * standardErrorLog);
  const pValue = 2 * tCdf(-Math.abs(whole) / standardErrorLog, degrees);
  return { value, lower: value / factor, upper: value * factor, clusters, standardErrorLog, pValue, reason };
}

function sums(tables: Tables, index: number): { up: number; down: number } {
  const cell = stratum(tables, index);
  return cell ? { up: (cell.a * cell.t0) / cell.total, down: (cell.b * cell.t1) / cell.total } : { up: 0, down: 0 };
}

/** What leaving some rows out changes in the Mantel–Haenszel sums; the tables are put back as they were. */
function leaveOut(
  members: readonly number[],
  rows: RateRows,
  group: Category,
  strata: Category | null,
  tables: Tables,
  parts: readonly { readonly up: number; readonly down: number }[],
): { up: number; down: number } {
  const touched = new Set<number>();
  const move = (sign: 1 | -1) => {
    for (const row of members) {
      const index = strata ? (strata.codes[row] as number) : 0;
      const side = group.codes[row] === 1 ? tables.compared : tables.reference;
      side.events[index] = (side.events[index] as number) + sign * (rows.events[row] as number);
      side.exposure[index] = (side.exposure[index] as number) + sign * (rows.exposure[row] as number);
      touched.add(index);
    }
  };
  move(-1);
  let [up, down] = [0, 0];
  for (const index of touched) {
    const part = sums(tables, index);
    up += part.up - (parts[index] as { up: number }).up;
    down += part.down - (parts[index] as { down: number }).down;
  }
  move(1);
  return { up, down };
}

function rowsByCluster(cluster: Category): number[][] {
  const members = Array.from(cluster.levels, (): number[] => []);
  cluster.codes.forEach((code, row) => (members[code] as number[]).push(row));
  return members;
}
