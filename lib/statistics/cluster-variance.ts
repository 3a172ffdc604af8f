import type { RiskOrder } from './risk-order.ts';
import type { Codes } from './survival-data.ts';

/**
 * How one row of weight one moves an estimate: each time j at which it is at risk adds `whileAtRisk[j]`,
 * and its event at j adds `atEvent[j]`. Both have the length of the part's distinct times.
 */
export interface Influence {
  readonly whileAtRisk: Float64Array;
  readonly atEvent: Float64Array;
}

export interface ClusterVariance {
  /** At each time, the sum over clusters of the squared sum of its rows' influences so far. */
  readonly variance: Float64Array;
  /** Clusters with a row at risk just before each time. */
  readonly atRisk: Int32Array;
  /** Clusters with any row in the part. */
  readonly clusters: number;
}

/** Fields of one cluster, side by side so that a visit costs one line of cache. */
const FIXED = 0;
const OPEN = 1;
const LIVES = 2;
const PART = 3;
const STRIDE = 4;

/** Room for the sums of every cluster, shared by all parts: a cluster's fields are reset when a part first meets it. */
export type ClusterRoom = Float64Array;

export function clusterRoom(clusters: number): ClusterRoom {
  const room = new Float64Array(clusters * STRIDE);
  for (let base = 0; base < room.length; base += STRIDE) room[base + PART] = -1;
  return room;
}

/**
 * Infinitesimal-jackknife variance of a running sum over time, clusters moving as one (Lin & Wei 1989;
 * Therneau & Grambsch §7.2), in O(rows), whatever the number of clusters.
 *
 * At any moment a cluster's sum is A + R·G: R its weight now at risk, G the running total of
 * `whileAtRisk`, A what its entries and exits so far have settled. Only entries and exits change A
 * and R, so ΣA², ΣAR and ΣR² are kept up to date and ΣB² = ΣA² + 2G·ΣAR + G²·ΣR² costs nothing a time.
 */
export function clusterVariance(
  order: RiskOrder,
  part: number,
  columns: {
    readonly event: Uint8Array;
    readonly entry: Float64Array | null;
    readonly weight: Float64Array | null;
    readonly cluster: Codes;
  },
  influence: Influence,
  room: ClusterRoom,
): ClusterVariance {
  const { rows, time: exits, lateRows, lateTime, firstExit } = order;
  const { event, entry, weight } = columns;
  const codes = columns.cluster.codes;
  const start = order.start[part] as number;
  const end = order.start[part + 1] as number;
  const lateEnd = order.lateStart[part + 1] as number;
  const places = influence.whileAtRisk.length;
  const variance = new Float64Array(places);
  const atRisk = new Int32Array(places);
  const sums = new Float64Array(SUMS);
  for (let k = start; k < end; k++) {
    const row = rows[k] as number;
    if (entry !== null && (entry[row] as number) >= firstExit) continue;
    const base = (codes[row] as number) * STRIDE;
    enter(room, base, part, sums, weight === null ? 1 : (weight[row] as number), 0);
  }
  let total = 0;
  let late = order.lateStart[part] as number;
  for (let place = 0, k = start; place < places; place++) {
    const now = exits[k] as number;
    for (; late < lateEnd && (lateTime[late] as number) < now; late++) {
      const row = lateRows[late] as number;
      const base = (codes[row] as number) * STRIDE;
      enter(room, base, part, sums, weight === null ? 1 : (weight[row] as number), total);
    }
    atRisk[place] = sums[AT_RISK] as number;
    total += influence.whileAtRisk[place] as number;
    const jump = influence.atEvent[place] as number;
    for (; k < end && exits[k] === now; k++) {
      const row = rows[k] as number;
      const w = weight === null ? 1 : (weight[row] as number);
      const base = (codes[row] as number) * STRIDE;
      leave(room, base, sums, w, w * (total + (event[row] as number) * jump));
    }
    variance[place] = squared(sums, total);
  }
  return { variance, atRisk, clusters: sums[CLUSTERS] as number };
}

/** Where the running sums lie: ΣA², ΣAR and ΣR², each beside its compensation, then counts of clusters. */
const AA = 0;
const AR = 2;
const RR = 4;
const CLUSTERS = 6;
const AT_RISK = 7;
const SUMS = 8;

function enter(room: ClusterRoom, base: number, part: number, sums: Float64Array, weight: number, total: number): void {
  if (room[base + PART] !== part) {
    room[base + FIXED] = room[base + OPEN] = room[base + LIVES] = 0;
    room[base + PART] = part;
    sums[CLUSTERS] = (sums[CLUSTERS] as number) + 1;
  }
  const lives = room[base + LIVES] as number;
  room[base + LIVES] = lives + 1;
  if (lives === 0) sums[AT_RISK] = (sums[AT_RISK] as number) + 1;
  move(room, base, sums, -weight * total, weight);
}

function leave(room: ClusterRoom, base: number, sums: Float64Array, weight: number, settled: number): void {
  const lives = (room[base + LIVES] as number) - 1;
  room[base + LIVES] = lives;
  if (lives === 0) sums[AT_RISK] = (sums[AT_RISK] as number) - 1;
  move(room, base, sums, settled, -weight);
}

/** Σ(A + R·G)² from the sums of {@link move}; rounding may leave a true zero just below it. */
function squared(sums: Float64Array, total: number): number {
  const aa = (sums[AA] as number) + (sums[AA + 1] as number);
  const ar = (sums[AR] as number) + (sums[AR + 1] as number);
  const rr = (sums[RR] as number) + (sums[RR + 1] as number);
  return Math.max(0, aa + total * (2 * ar + total * rr));
}

/** Changes one cluster's A and R, and ΣA², ΣAR, ΣR² with it: six numbers, each sum beside its compensation. */
function move(room: ClusterRoom, base: number, sums: Float64Array, byFixed: number, byOpen: number): void {
  const a = room[base + FIXED] as number;
  const r = room[base + OPEN] as number;
  room[base + FIXED] = a + byFixed;
  room[base + OPEN] = r + byOpen;
  add(sums, AA, byFixed * (2 * a + byFixed));
  add(sums, AR, a * byOpen + byFixed * (r + byOpen));
  add(sums, RR, byOpen * (2 * r + byOpen));
}

/** Knuth's two-sum. */
function add(sums: Float64Array, at: number, change: number): void {
  const old = sums[at] as number;
  const next = old + change;
  const moved = next - old;
  sums[at] = next;
  sums[at + 1] = (sums[at + 1] as number) + (old - (next - moved)) + (change - moved);
}
