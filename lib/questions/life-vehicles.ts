import type { CurveRows } from './curve-rows.ts';
import type { Carried } from './doubts/leave-one-out.ts';

/** Failures and miles at risk of each vehicle within each group, from the rows behind the curves. */
export function vehiclesOf(rows: CurveRows): Carried[] {
  const units = rows.cluster.reduce((most, unit) => Math.max(most, unit + 1), 0);
  const places = new Map<number, { by: number; group: number; events: number; miles: number }>();
  for (let row = 0; row < rows.rows; row++) {
    const [group, by] = [rows.group.codes[row] as number, rows.cluster[row] as number];
    const key = group * units + by;
    let sum = places.get(key);
    if (!sum) places.set(key, (sum = { by, group, events: 0, miles: 0 }));
    sum.events += rows.event[row] as number;
    sum.miles += (rows.exit[row] as number) - (rows.entry[row] as number);
  }
  return [...places.values()];
}
