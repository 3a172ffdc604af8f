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

/** Room for the sums of every cluster, shared by the parts so that it is cleared row by row, not whole. */
export interface ClusterRoom {
  readonly fixed: Float64Array;
  readonly open: Float64Array;
  readonly lives: Int32Array;
}

export const clusterRoom = (clusters: number): ClusterRoom => ({
  fixed: new Float64Array(clusters),
  open: new Float64Array(clusters),
  lives: new Int32Array(clusters),
});

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
  const sums = new QuadraticSums(room);
  for (let k = start; k < end; k++) {
    const row = rows[k] as number;
    if (entry !== null && (entry[row] as number) >= firstExit) continue;
    sums.enter(codes[row] as number, weight === null ? 1 : (weight[row] as number), 0);
  }
  let total = 0;
  let late = order.lateStart[part] as number;
  for (let place = 0, k = start; place < places; place++) {
    const now = exits[k] as number;
    for (; late < lateEnd && (lateTime[late] as number) < now; late++) {
      const row = lateRows[late] as number;
      sums.enter(codes[row] as number, weight === null ? 1 : (weight[row] as number), total);
    }
    atRisk[place] = sums.clustersAtRisk;
    total += influence.whileAtRisk[place] as number;
    const jump = influence.atEvent[place] as number;
    for (; k < end && exits[k] === now; k++) {
      const row = rows[k] as number;
      const w = weight === null ? 1 : (weight[row] as number);
      sums.leave(codes[row] as number, w, w * (total + (event[row] as number) * jump));
    }
    variance[place] = sums.squared(total);
  }
  return { variance, atRisk, clusters: sums.clear(rows, codes, start, end) };
}

/** ΣA², ΣAR and ΣR² over clusters, with compensated sums since they are moved a million times. */
class QuadraticSums {
  clustersAtRisk = 0;
  #fixedFixed = 0;
  #fixedOpen = 0;
  #openOpen = 0;
  #fixedFixedRest = 0;
  #fixedOpenRest = 0;
  #openOpenRest = 0;
  readonly #room: ClusterRoom;

  constructor(room: ClusterRoom) {
    this.#room = room;
  }

  enter(cluster: number, weight: number, total: number): void {
    const lives = this.#room.lives;
    if (lives[cluster] === 0) this.clustersAtRisk++;
    lives[cluster] = (lives[cluster] as number) + 1;
    this.#move(cluster, -weight * total, weight);
  }

  leave(cluster: number, weight: number, settled: number): void {
    const lives = this.#room.lives;
    lives[cluster] = (lives[cluster] as number) - 1;
    if (lives[cluster] === 0) this.clustersAtRisk--;
    this.#move(cluster, settled, -weight);
  }

  squared(total: number): number {
    const sum =
      this.#fixedFixed +
      this.#fixedFixedRest +
      total * (2 * (this.#fixedOpen + this.#fixedOpenRest) + total * (this.#openOpen + this.#openOpenRest));
    return sum > 0 ? sum : 0;
  }

  /** Empties the room again; returns how many clusters had rows. */
  clear(rows: Uint32Array, codes: Int32Array, start: number, end: number): number {
    const { fixed, open, lives } = this.#room;
    let clusters = 0;
    for (let k = start; k < end; k++) {
      const cluster = codes[rows[k] as number] as number;
      if (lives[cluster] === 0) {
        lives[cluster] = -1;
        clusters++;
      }
    }
    for (let k = start; k < end; k++) {
      const cluster = codes[rows[k] as number] as number;
      fixed[cluster] = open[cluster] = lives[cluster] = 0;
    }
    return clusters;
  }

  #move(cluster: number, byFixed: number, byOpen: number): void {
    const { fixed, open } = this.#room;
    const a = fixed[cluster] as number;
    const r = open[cluster] as number;
    fixed[cluster] = a + byFixed;
    open[cluster] = r + byOpen;
    let change = byFixed * (2 * a + byFixed);
    let next = this.#fixedFixed + change;
    let moved = next - this.#fixedFixed;
    this.#fixedFixedRest += this.#fixedFixed - (next - moved) + (change - moved);
    this.#fixedFixed = next;
    change = a * byOpen + byFixed * (r + byOpen);
    next = this.#fixedOpen + change;
    moved = next - this.#fixedOpen;
    this.#fixedOpenRest += this.#fixedOpen - (next - moved) + (change - moved);
    this.#fixedOpen = next;
    change = byOpen * (2 * r + byOpen);
    next = this.#openOpen + change;
    moved = next - this.#openOpen;
    this.#openOpenRest += this.#openOpen - (next - moved) + (change - moved);
    this.#openOpen = next;
  }
}
