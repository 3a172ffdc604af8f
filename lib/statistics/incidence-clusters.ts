import { labelsInOrder, LIVES, OPEN, openFromStart, STRIDE, type ClusterLabels } from './cluster-labels.ts';
import type { ClusterVariance } from './cluster-variance.ts';
import type { IncidenceCurve } from './incidence-curve.ts';
import type { RiskCounts } from './risk-counts.ts';
import type { RiskOrder } from './risk-order.ts';
import type { Codes } from './survival-data.ts';

/**
 * How one row of weight one moves an incidence F at time t: a(t) + F(t)·b(t). While at risk it gathers
 * `riskA` and `riskB` at each time; at its event it adds `ownA` (an event of the cause) or `otherA`, and `eventB`.
 */
interface IncidenceInfluence {
  readonly riskA: Float64Array;
  readonly riskB: Float64Array;
  readonly ownA: Float64Array;
  readonly otherA: Float64Array;
  readonly eventB: Float64Array;
}

/** The derivatives of S(t−)·d_k/n and of S in the weights, with F taken out of the sum by parts. */
function incidenceInfluence(
  { incidence, survival, events }: Pick<IncidenceCurve, 'incidence' | 'survival' | 'events'>,
  all: RiskCounts,
): IncidenceInfluence {
  const places = incidence.length;
  const pull = {
    riskA: new Float64Array(places),
    riskB: new Float64Array(places),
    ownA: new Float64Array(places),
    otherA: new Float64Array(places),
    eventB: new Float64Array(places),
  };
  for (let place = 0; place < places; place++) {
    const d = all.events[place] as number;
    const before = place === 0 ? 1 : (survival[place - 1] as number);
    if (!(d > 0 && before > 0)) continue;
    const n = all.atRisk[place] as number;
    const f = incidence[place] as number;
    // When all fail F stops for good, so what S does from here on moves nothing.
    const [riskB, eventB] = n > d ? [d / (n * (n - d)), -1 / (n - d)] : [0, 0];
    pull.riskB[place] = riskB;
    pull.eventB[place] = eventB;
    pull.riskA[place] = (-before * (events[place] as number)) / (n * n) - f * riskB;
    pull.ownA[place] = before / n - f * eventB;
    pull.otherA[place] = -f * eventB;
  }
  return pull;
}

/** After a cluster's weight and rows at risk: what of a and b its rows have settled. */
const A = 2;
const B = 3;

/**
 * Infinitesimal-jackknife variance of an incidence, clusters moving as one, in O(rows): as
 * `clusterVariance`, with a second sum a cluster since F(t) multiplies part of what its rows gather.
 */
export function incidenceClusterVariance(
  order: RiskOrder,
  part: number,
  columns: {
    readonly event: Uint8Array;
    readonly entry: Float64Array | null;
    readonly weight: Float64Array | null;
    readonly cluster: Codes;
  },
  curve: IncidenceCurve,
  all: RiskCounts,
  shared: ClusterLabels,
): ClusterVariance {
  const { rows, time: exits, lateRows, lateTime } = order;
  const { weight } = columns;
  const { incidence, cause } = curve;
  const { riskA, riskB, ownA, otherA, eventB } = incidenceInfluence(curve, all);
  const start = order.start[part] as number;
  const end = order.start[part + 1] as number;
  const lateStart = order.lateStart[part] as number;
  const lateEnd = order.lateStart[part + 1] as number;
  const variance = new Float64Array(incidence.length);
  const atRisk = new Int32Array(incidence.length);
  const inOrder = labelsInOrder(order, part, columns, shared);
  const { label, bits, lateLabel, clusters } = inOrder;
  const room = new Float64Array(clusters * STRIDE);
  openFromStart(room, order, part, inOrder, weight);
  const sums = startSums(room);
  for (let place = 0, k = start, late = lateStart; place < incidence.length; place++) {
    const now = exits[k] as number;
    for (; late < lateEnd && (lateTime[late] as number) < now; late++) {
      const row = lateRows[late] as number;
      const base = (lateLabel[late - lateStart] as number) * STRIDE;
      change(room, base, sums, weight === null ? 1 : (weight[row] as number), 1, 0, 0);
    }
    atRisk[place] = sums.open;
    rise(sums, riskA[place] as number, riskB[place] as number);
    for (; k < end && exits[k] === now; k++) {
      const row = rows[k] as number;
      const packed = label[k - start] as number;
      const base = (packed >>> bits) * STRIDE;
      const w = weight === null ? 1 : (weight[row] as number);
      const code = packed & (2 ** bits - 1);
      if (code === 0) change(room, base, sums, -w, -1, 0, 0);
      else
        change(
          room,
          base,
          sums,
          -w,
          -1,
          w * ((code === cause ? ownA : otherA)[place] as number),
          w * (eventB[place] as number),
        );
    }
    const f = incidence[place] as number;
    variance[place] = Math.max(0, sums.aa + f * (2 * sums.ab + f * sums.bb));
  }
  return { variance, atRisk, clusters };
}

/** Over clusters with a and b their rows' sums so far and r their weight at risk: Σa², Σab, Σb², Σra, Σrb, Σr². */
interface ClusterSums {
  aa: number;
  ab: number;
  bb: number;
  ra: number;
  rb: number;
  rr: number;
  /** What being at risk has added so far. */
  totalA: number;
  totalB: number;
  /** Clusters at risk. */
  open: number;
}

function startSums(room: Float64Array): ClusterSums {
  const sums = { aa: 0, ab: 0, bb: 0, ra: 0, rb: 0, rr: 0, totalA: 0, totalB: 0, open: 0 };
  for (let base = 0; base < room.length; base += STRIDE) {
    sums.rr += (room[base + OPEN] as number) ** 2;
    if ((room[base + LIVES] as number) > 0) sums.open++;
  }
  return sums;
}

/** One more time at risk: each cluster's a and b rise by its weight at risk times these. */
function rise(sums: ClusterSums, byA: number, byB: number): void {
  const { ra, rb, rr } = sums;
  sums.aa += byA * (2 * ra + byA * rr);
  sums.ab += byA * rb + byB * ra + byA * byB * rr;
  sums.bb += byB * (2 * rb + byB * rr);
  sums.ra += byA * rr;
  sums.rb += byB * rr;
  sums.totalA += byA;
  sums.totalB += byB;
}

/** A row enters (by its weight) or leaves (by minus it, its event adding `jumpA` and `jumpB`). */
function change(
  room: Float64Array,
  base: number,
  sums: ClusterSums,
  byOpen: number,
  byLives: number,
  jumpA: number,
  jumpB: number,
): void {
  const { totalA, totalB } = sums;
  const r = room[base + OPEN] as number;
  const next = r + byOpen;
  const a = (room[base + A] as number) + r * totalA;
  const b = (room[base + B] as number) + r * totalB;
  const lives = room[base + LIVES] as number;
  if (lives === 0 || lives + byLives === 0) sums.open += byLives;
  room[base + A] = a + jumpA - next * totalA;
  room[base + B] = b + jumpB - next * totalB;
  room[base + OPEN] = next;
  room[base + LIVES] = lives + byLives;
  sums.ra += byOpen * a + next * jumpA;
  sums.rb += byOpen * b + next * jumpB;
  sums.rr += byOpen * (r + next);
  if (jumpA === 0 && jumpB === 0) return;
  sums.aa += jumpA * (2 * a + jumpA);
  sums.ab += a * jumpB + jumpA * (b + jumpB);
  sums.bb += jumpB * (2 * b + jumpB);
}
