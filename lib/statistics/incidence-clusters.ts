import { labelsInOrder, type ClusterLabels, type ClusterVariance } from './cluster-variance.ts';
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

/** Fields of one cluster: what of a and b its rows have settled, its weight and its rows at risk. */
const A = 0;
const B = 1;
const OPEN = 2;
const LIVES = 3;
const STRIDE = 4;

/** ΣA², ΣAB, ΣB², ΣAR, ΣBR, ΣR² and the clusters at risk. */
const AA = 0;
const AB = 1;
const BB = 2;
const AR = 3;
const BR = 4;
const RR = 5;
const AT_RISK = 6;
const SUMS = 7;

/**
 * Infinitesimal-jackknife variance of an incidence, clusters moving as one, in O(rows): as
 * `clusterVariance`, with a second settled sum since F(t) multiplies part of what is settled.
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
  const { rows, time: exits, lateRows, lateTime, firstExit } = order;
  const { event, entry, weight } = columns;
  const { incidence, cause } = curve;
  const { riskA, riskB, ownA, otherA, eventB } = incidenceInfluence(curve, all);
  const start = order.start[part] as number;
  const end = order.start[part + 1] as number;
  const lateEnd = order.lateStart[part + 1] as number;
  const variance = new Float64Array(incidence.length);
  const atRisk = new Int32Array(incidence.length);
  const first = shared.next;
  const label = labelsInOrder(order, part, columns.cluster, shared);
  const room = new Float64Array((shared.next - first) * STRIDE);
  const sums = new Float64Array(SUMS);
  for (let k = start; k < end; k++) {
    const row = rows[k] as number;
    if (entry !== null && (entry[row] as number) >= firstExit) continue;
    move(room, (label[k - start] as number) * STRIDE, sums, 0, 0, weight === null ? 1 : (weight[row] as number), 1);
  }
  let [totalA, totalB] = [0, 0];
  let late = order.lateStart[part] as number;
  for (let place = 0, k = start; place < incidence.length; place++) {
    const now = exits[k] as number;
    for (; late < lateEnd && (lateTime[late] as number) < now; late++) {
      const row = lateRows[late] as number;
      const base = ((shared.labels[columns.cluster.codes[row] as number] as number) - first) * STRIDE;
      const w = weight === null ? 1 : (weight[row] as number);
      move(room, base, sums, -w * totalA, -w * totalB, w, 1);
    }
    atRisk[place] = sums[AT_RISK] as number;
    totalA += riskA[place] as number;
    totalB += riskB[place] as number;
    for (; k < end && exits[k] === now; k++) {
      const row = rows[k] as number;
      const w = weight === null ? 1 : (weight[row] as number);
      const code = event[row] as number;
      const a = code === 0 ? 0 : ((code === cause ? ownA : otherA)[place] as number);
      const b = code === 0 ? 0 : (eventB[place] as number);
      move(room, (label[k - start] as number) * STRIDE, sums, w * (totalA + a), w * (totalB + b), -w, -1);
    }
    variance[place] = squared(sums, incidence[place] as number, totalA, totalB);
  }
  return { variance, atRisk, clusters: shared.next - first };
}

/** Σ(A + F·B + R·(a + F·b))²; rounding may leave a true zero just below it. */
function squared(sums: Float64Array, f: number, totalA: number, totalB: number): number {
  const g = totalA + f * totalB;
  const settled = (sums[AA] as number) + f * (2 * (sums[AB] as number) + f * (sums[BB] as number));
  const open = 2 * ((sums[AR] as number) + f * (sums[BR] as number)) + g * (sums[RR] as number);
  return Math.max(0, settled + g * open);
}

function move(
  room: Float64Array,
  base: number,
  sums: Float64Array,
  byA: number,
  byB: number,
  byOpen: number,
  byLives: number,
): void {
  const a = room[base + A] as number;
  const b = room[base + B] as number;
  const r = room[base + OPEN] as number;
  const lives = room[base + LIVES] as number;
  room[base + A] = a + byA;
  room[base + B] = b + byB;
  room[base + OPEN] = r + byOpen;
  room[base + LIVES] = lives + byLives;
  if (lives === 0 || lives + byLives === 0) sums[AT_RISK] = (sums[AT_RISK] as number) + byLives;
  sums[AA] = (sums[AA] as number) + byA * (2 * a + byA);
  sums[AB] = (sums[AB] as number) + a * byB + byA * (b + byB);
  sums[BB] = (sums[BB] as number) + byB * (2 * b + byB);
  sums[AR] = (sums[AR] as number) + a * byOpen + byA * (r + byOpen);
  sums[BR] = (sums[BR] as number) + b * byOpen + byB * (r + byOpen);
  sums[RR] = (sums[RR] as number) + byOpen * (2 * r + byOpen);
}
