import type { RiskOrder } from './risk-order.ts';

/** Who was at risk and what happened at each distinct exit time of one part, ascending. Weighted where weights were given. */
export interface RiskCounts {
  readonly time: Float64Array;
  /** At risk just before each time: entry < time ≤ exit. */
  readonly atRisk: Float64Array;
  /** Came under observation since the time before (first place: since the start). */
  readonly entered: Float64Array;
  readonly events: Float64Array;
  readonly censored: Float64Array;
  /**
   * First time after which nobody was left at risk although others entered later, or null. From
   * there on a product-limit curve tells of the gap, not of lives.
   */
  readonly emptiedAt: number | null;
}

/**
 * Sweeps one part in O(its rows). Where all at risk fail together, `events` equals `atRisk` exactly
 * even with fractional weights, so that the curve reaches zero and not a rounding error above it;
 * weights are summed with compensation (Knuth's two-sum) for the same reason.
 */
export function riskCounts(
  order: RiskOrder,
  part: number,
  event: Uint8Array,
  columns: { readonly entry: Float64Array | null; readonly weight: Float64Array | null },
): RiskCounts {
  const { rows, time: exits, lateRows, lateTime, firstExit } = order;
  const { entry, weight } = columns;
  const start = order.start[part] as number;
  const end = order.start[part + 1] as number;
  const lateEnd = order.lateStart[part + 1] as number;
  const places = distinctTimes(exits, start, end);
  const time = new Float64Array(places);
  const atRisk = new Float64Array(places);
  const entered = new Float64Array(places);
  const events = new Float64Array(places);
  const censored = new Float64Array(places);
  const atStart = order.lateStart[part] as number;
  const early = end - start - (lateEnd - atStart);
  // `lives` counts rows of positive weight; with weights, the number at risk is sum + rest.
  const sum = new Float64Array(2);
  let lives = 0;
  if (weight === null) lives = early;
  else
    for (let k = start; k < end; k++) {
      const row = rows[k] as number;
      if (entry !== null && (entry[row] as number) >= firstExit) continue;
      const w = weight[row] as number;
      add(sum, w);
      if (w > 0) lives++;
    }
  let emptiedAt: number | null = null;
  let late = atStart;
  for (let place = 0, k = start; place < places; place++) {
    const now = exits[k] as number;
    let newcomers = place > 0 ? 0 : weight === null ? lives : total(sum);
    for (; late < lateEnd && (lateTime[late] as number) < now; late++) {
      const w = weight === null ? 1 : (weight[lateRows[late] as number] as number);
      if (weight !== null) add(sum, w);
      newcomers += w;
      if (w > 0) lives++;
    }
    let failed = 0;
    let left = 0;
    let failures = 0;
    let leavers = 0;
    for (; k < end && exits[k] === now; k++) {
      const row = rows[k] as number;
      const w = weight === null ? 1 : (weight[row] as number);
      const count = w > 0 ? 1 : 0;
      leavers += count;
      if (event[row] === 0) left += w;
      else {
        failed += w;
        failures += count;
      }
    }
    const risk = weight === null ? lives : total(sum);
    time[place] = now;
    entered[place] = newcomers;
    atRisk[place] = risk;
    events[place] = failures === lives ? risk : failed;
    censored[place] = left;
    lives -= leavers;
    if (weight !== null) {
      if (lives === 0) sum.fill(0);
      else add(sum, -(failed + left));
    }
    if (lives === 0 && emptiedAt === null && place < places - 1) emptiedAt = now;
  }
  return { time, atRisk, entered, events, censored, emptiedAt };
}

const total = (sum: Float64Array): number => (sum[0] as number) + (sum[1] as number);

/** Knuth's two-sum. */
function add(sum: Float64Array, change: number): void {
  const old = sum[0] as number;
  const next = old + change;
  const moved = next - old;
  sum[0] = next;
  sum[1] = (sum[1] as number) + (old - (next - moved)) + (change - moved);
}

function distinctTimes(times: Float64Array, start: number, end: number): number {
  let places = 0;
  for (let k = start; k < end; k++) if (k === start || times[k] !== times[k - 1]) places++;
  return places;
}
