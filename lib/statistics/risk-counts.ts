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
 * weights are summed with compensation (Knuth's two-sum) for the same reason. The order's marks are
 * the rows' events.
 */
export function riskCounts(
  order: RiskOrder,
  part: number,
  { entry, weight }: { readonly entry: Float64Array | null; readonly weight: Float64Array | null },
): RiskCounts {
  return weight === null ? countRows(order, part) : weighRows(order, part, entry, weight);
}

const roomFor = (places: number) => ({
  time: new Float64Array(places),
  atRisk: new Float64Array(places),
  entered: new Float64Array(places),
  events: new Float64Array(places),
  censored: new Float64Array(places),
});

/** Every row counts once: whole numbers throughout, so nothing needs care but speed. */
function countRows(order: RiskOrder, part: number): RiskCounts {
  const { marks, time: exits, lateTime } = order;
  const start = order.start[part] as number;
  const end = order.start[part + 1] as number;
  const lateEnd = order.lateStart[part + 1] as number;
  let late = order.lateStart[part] as number;
  let lives = end - start - (lateEnd - late);
  const { time, atRisk, entered, events, censored } = roomFor(distinctTimes(exits, start, end));
  let emptiedAt = NaN;
  for (let place = 0, k = start; k < end; place++) {
    const now = exits[k] as number;
    const before = late;
    while (late < lateEnd && (lateTime[late] as number) < now) late++;
    entered[place] = late - before;
    lives += late - before;
    const first = k;
    let failed = 0;
    do {
      // 1 for any cause, 0 for none, without a branch that nothing could foretell.
      failed += ((marks[k] as number) + 255) >> 8;
      k++;
    } while (k < end && exits[k] === now);
    time[place] = now;
    atRisk[place] = lives;
    events[place] = failed;
    censored[place] = k - first - failed;
    lives -= k - first;
    if (lives === 0 && k < end && Number.isNaN(emptiedAt)) emptiedAt = now;
  }
  if (end > start) entered[0] = atRisk[0] as number;
  return { time, atRisk, entered, events, censored, emptiedAt: Number.isNaN(emptiedAt) ? null : emptiedAt };
}

function weighRows(order: RiskOrder, part: number, entry: Float64Array | null, weight: Float64Array): RiskCounts {
  const { rows, marks, time: exits, lateRows, lateTime, firstExit } = order;
  const start = order.start[part] as number;
  const end = order.start[part + 1] as number;
  const lateEnd = order.lateStart[part + 1] as number;
  const places = distinctTimes(exits, start, end);
  const { time, atRisk, entered, events, censored } = roomFor(places);
  // `lives` counts rows of positive weight; the number at risk is sum + rest.
  const sum = new Float64Array(2);
  let lives = 0;
  for (let k = start; k < end; k++) {
    const row = rows[k] as number;
    if (entry !== null && (entry[row] as number) >= firstExit) continue;
    const w = weight[row] as number;
    add(sum, w);
    if (w > 0) lives++;
  }
  let emptiedAt: number | null = null;
  let late = order.lateStart[part] as number;
  for (let place = 0, k = start; place < places; place++) {
    const now = exits[k] as number;
    let newcomers = place > 0 ? 0 : total(sum);
    for (; late < lateEnd && (lateTime[late] as number) < now; late++) {
      const w = weight[lateRows[late] as number] as number;
      add(sum, w);
      newcomers += w;
      if (w > 0) lives++;
    }
    let failed = 0;
    let left = 0;
    let failures = 0;
    let leavers = 0;
    for (; k < end && exits[k] === now; k++) {
      const w = weight[rows[k] as number] as number;
      const count = w > 0 ? 1 : 0;
      leavers += count;
      if (marks[k] === 0) left += w;
      else {
        failed += w;
        failures += count;
      }
    }
    const risk = total(sum);
    time[place] = now;
    entered[place] = newcomers;
    atRisk[place] = risk;
    events[place] = failures === lives ? risk : failed;
    censored[place] = left;
    lives -= leavers;
    if (lives === 0) sum.fill(0);
    else add(sum, -(failed + left));
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
