import { labelsInOrder, LIVES, OPEN, openFromStart, STRIDE, type ClusterLabels } from './cluster-labels.ts';
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
 * Infinitesimal-jackknife variance of a running sum over time, clusters moving as one (Lin & Wei 1989;
 * Therneau & Grambsch §7.2), in O(rows), whatever the number of clusters.
 *
 * At any moment a cluster's sum is B = A + R·G: R its weight now at risk, G the running total of
 * `whileAtRisk`, A what its entries and exits so far have settled. As G rises by g every B rises by R·g, so
 * ΣB², ΣRB and ΣR² follow from themselves; an entry or exit changes them through one cluster only.
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
  const { rows, time: exits, lateRows, lateTime } = order;
  const { weight } = columns;
  const start = order.start[part] as number;
  const end = order.start[part + 1] as number;
  const { whileAtRisk, atEvent } = influence;
  const places = whileAtRisk.length;
  const variance = new Float64Array(places);
  const atRisk = new Int32Array(places);
  const inOrder = labelsInOrder(order, part, columns, shared);
  const { label, bits, lateLabel, clusters } = inOrder;
  const eventMask = 2 ** bits - 1;
  const lateStart = order.lateStart[part] as number;
  const lateEnd = order.lateStart[part + 1] as number;
  const room = new Float64Array(clusters * STRIDE);
  openFromStart(room, order, part, inOrder, weight);
  let { squares, open } = countOpen(room);
  let [sumSquares, sumProducts, total] = [0, 0, 0];
  // What ΣRB and ΣR² lose to rounding while many are at risk would be all that is left of them when few are:
  // each change is followed by Knuth's two-sum, written out because a call in the inner loop costs more.
  let [lostProducts, lostSquares] = [0, 0];
  let late = lateStart;
  for (let place = 0, k = start; place < places; place++) {
    const now = exits[k] as number;
    for (; late < lateEnd && (lateTime[late] as number) < now; late++) {
      const row = lateRows[late] as number;
      const base = (lateLabel[late - lateStart] as number) * STRIDE;
      const w = weight === null ? 1 : (weight[row] as number);
      const r = room[base + OPEN] as number;
      const settled = room[base + FIXED] as number;
      if (room[base + LIVES] === 0) open++;
      room[base + LIVES] = (room[base + LIVES] as number) + 1;
      room[base + OPEN] = r + w;
      room[base + FIXED] = settled - w * total;
      const byProducts = w * (settled + r * total);
      const products = sumProducts + byProducts;
      const productsMoved = products - sumProducts;
      lostProducts += sumProducts - (products - productsMoved) + (byProducts - productsMoved);
      sumProducts = products;
      const bySquares = w * (2 * r + w);
      const squared = squares + bySquares;
      const squaresMoved = squared - squares;
      lostSquares += squares - (squared - squaresMoved) + (bySquares - squaresMoved);
      squares = squared;
    }
    atRisk[place] = open;
    const rise = whileAtRisk[place] as number;
    const openSquares = squares + lostSquares;
    sumSquares += rise * (2 * (sumProducts + lostProducts) + rise * openSquares);
    lostProducts += rise * openSquares;
    total += rise;
    const jump = atEvent[place] as number;
    for (; k < end && exits[k] === now; k++) {
      const row = rows[k] as number;
      const code = label[k - start] as number;
      const base = (code >>> bits) * STRIDE;
      const w = weight === null ? 1 : (weight[row] as number);
      const r = room[base + OPEN] as number;
      const rest = r - w;
      const before = (room[base + FIXED] as number) + r * total;
      const moved = w * (code & eventMask) * jump;
      const lives = (room[base + LIVES] as number) - 1;
      if (lives === 0) open--;
      room[base + LIVES] = lives;
      room[base + OPEN] = rest;
      room[base + FIXED] = before + moved - rest * total;
      sumSquares += moved * (2 * before + moved);
      const byProducts = rest * moved - w * before;
      const products = sumProducts + byProducts;
      const productsMoved = products - sumProducts;
      lostProducts += sumProducts - (products - productsMoved) + (byProducts - productsMoved);
      sumProducts = products;
      const bySquares = -w * (r + rest);
      const squared = squares + bySquares;
      const squaresMoved = squared - squares;
      lostSquares += squares - (squared - squaresMoved) + (bySquares - squaresMoved);
      squares = squared;
    }
    variance[place] = Math.max(0, sumSquares);
  }
  return { variance, atRisk, clusters };
}

/** After a cluster's weight and lives at risk: what its rows have settled. */
const FIXED = 2;

/** ΣR² and the number of clusters at risk from the start, of which nothing is settled yet. */
function countOpen(room: Float64Array): { squares: number; open: number } {
  let [squares, open] = [0, 0];
  for (let base = 0; base < room.length; base += STRIDE) {
    squares += (room[base + OPEN] as number) ** 2;
    if ((room[base + LIVES] as number) > 0) open++;
  }
  return { squares, open };
}
