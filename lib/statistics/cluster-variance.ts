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

/**
 * Labels of clusters in the order a sweep meets them, so that it walks their sums nearly straight along.
 * Shared by the parts: labels go on rising, and one from before this part's first counts as none.
 */
export interface ClusterLabels {
  readonly labels: Int32Array;
  next: number;
}

export const clusterLabels = (clusters: number): ClusterLabels => ({ labels: new Int32Array(clusters), next: 1 });

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
  shared: ClusterLabels,
): ClusterVariance {
  const { rows, time: exits, lateRows, lateTime, firstExit } = order;
  const { event, entry, weight } = columns;
  const start = order.start[part] as number;
  const end = order.start[part + 1] as number;
  const lateEnd = order.lateStart[part + 1] as number;
  const { whileAtRisk, atEvent } = influence;
  const places = whileAtRisk.length;
  const variance = new Float64Array(places);
  const atRisk = new Int32Array(places);
  const first = shared.next;
  const label = labelsInOrder(order, part, columns.cluster, shared);
  const clusters = shared.next - first;
  const room = new Float64Array(clusters * STRIDE);
  const sums = new Float64Array(SUMS);
  for (let k = start; k < end; k++) {
    const row = rows[k] as number;
    if (entry !== null && (entry[row] as number) >= firstExit) continue;
    const base = (label[k - start] as number) * STRIDE;
    room[base + OPEN] = (room[base + OPEN] as number) + (weight === null ? 1 : (weight[row] as number));
    room[base + LIVES] = (room[base + LIVES] as number) + 1;
  }
  begin(room, sums);
  let total = 0;
  let late = order.lateStart[part] as number;
  for (let place = 0, k = start; place < places; place++) {
    const now = exits[k] as number;
    for (; late < lateEnd && (lateTime[late] as number) < now; late++) {
      const row = lateRows[late] as number;
      const base = ((shared.labels[columns.cluster.codes[row] as number] as number) - first) * STRIDE;
      const w = weight === null ? 1 : (weight[row] as number);
      move(room, base, sums, -w * total, w, 1);
    }
    atRisk[place] = sums[AT_RISK] as number;
    total += whileAtRisk[place] as number;
    const jump = atEvent[place] as number;
    for (; k < end && exits[k] === now; k++) {
      const row = rows[k] as number;
      const w = weight === null ? 1 : (weight[row] as number);
      const settled = w * (total + (event[row] as number) * jump);
      move(room, (label[k - start] as number) * STRIDE, sums, settled, -w, -1);
    }
    variance[place] = squared(sums, total);
  }
  return { variance, atRisk, clusters };
}

/** The label of each row's cluster in the order of the part, counted from 0. */
export function labelsInOrder(order: RiskOrder, part: number, { codes }: Codes, shared: ClusterLabels): Int32Array {
  const { labels, next: first } = shared;
  const start = order.start[part] as number;
  const inOrder = new Int32Array((order.start[part + 1] as number) - start);
  let next = first;
  for (let k = 0; k < inOrder.length; k++) {
    const code = codes[order.rows[start + k] as number] as number;
    let label = labels[code] as number;
    if (label < first) labels[code] = label = next++;
    inOrder[k] = label - first;
  }
  shared.next = next;
  return inOrder;
}

/** Fields of one cluster, side by side so that a visit costs one line of cache. */
const FIXED = 0;
const OPEN = 1;
const LIVES = 2;
const STRIDE = 3;

/** Where the running sums lie: ΣA², ΣAR and ΣR², each beside its compensation, then the clusters at risk. */
const AA = 0;
const AR = 2;
const RR = 4;
const AT_RISK = 6;
const SUMS = 7;

/** The sums of the clusters at risk from the start, of which nothing is settled yet. */
function begin(room: Float64Array, sums: Float64Array): void {
  let squares = 0;
  let atRisk = 0;
  for (let base = 0; base < room.length; base += STRIDE) {
    squares += (room[base + OPEN] as number) ** 2;
    if ((room[base + LIVES] as number) > 0) atRisk++;
  }
  sums[RR] = squares;
  sums[AT_RISK] = atRisk;
}

/** Σ(A + R·G)² from the sums of {@link move}; rounding may leave a true zero just below it. */
function squared(sums: Float64Array, total: number): number {
  const aa = (sums[AA] as number) + (sums[AA + 1] as number);
  const ar = (sums[AR] as number) + (sums[AR + 1] as number);
  const rr = (sums[RR] as number) + (sums[RR + 1] as number);
  return Math.max(0, aa + total * (2 * ar + total * rr));
}

/**
 * Changes one cluster's A, R and lives at risk, and ΣA², ΣAR, ΣR² with them. Written out, each change by
 * Knuth's two-sum, because it is the inner loop and must not cost a call.
 */
function move(
  room: Float64Array,
  base: number,
  sums: Float64Array,
  byFixed: number,
  byOpen: number,
  byLives: number,
): void {
  const a = room[base + FIXED] as number;
  const r = room[base + OPEN] as number;
  const lives = room[base + LIVES] as number;
  room[base + FIXED] = a + byFixed;
  room[base + OPEN] = r + byOpen;
  room[base + LIVES] = lives + byLives;
  if (lives === 0 || lives + byLives === 0) sums[AT_RISK] = (sums[AT_RISK] as number) + byLives;
  const aa = sums[AA] as number;
  const byAa = byFixed * (2 * a + byFixed);
  const newAa = aa + byAa;
  const movedAa = newAa - aa;
  sums[AA] = newAa;
  sums[AA + 1] = (sums[AA + 1] as number) + (aa - (newAa - movedAa)) + (byAa - movedAa);
  const ar = sums[AR] as number;
  const byAr = a * byOpen + byFixed * (r + byOpen);
  const newAr = ar + byAr;
  const movedAr = newAr - ar;
  sums[AR] = newAr;
  sums[AR + 1] = (sums[AR + 1] as number) + (ar - (newAr - movedAr)) + (byAr - movedAr);
  const rr = sums[RR] as number;
  const byRr = byOpen * (2 * r + byOpen);
  const newRr = rr + byRr;
  const movedRr = newRr - rr;
  sums[RR] = newRr;
  sums[RR + 1] = (sums[RR + 1] as number) + (rr - (newRr - movedRr)) + (byRr - movedRr);
}
