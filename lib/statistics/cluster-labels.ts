import type { RiskOrder } from './risk-order.ts';
import type { Codes } from './survival-data.ts';

/**
 * Labels of clusters in the order a sweep meets them, so that it walks their sums nearly straight along.
 * Shared by the parts: labels go on rising, and one from before this part's first counts as none.
 */
export interface ClusterLabels {
  readonly labels: Int32Array;
  next: number;
  /** Each row's cluster and event in one number, so that one visit in the order of a sweep fetches both. */
  packed: PackedClusters | null;
}

interface PackedClusters {
  /** cluster · 2^bits + event. */
  readonly codes: Uint32Array;
  readonly bits: number;
}

/** For calls that share cluster and event columns. */
export const clusterLabels = (clusters: number): ClusterLabels => ({
  labels: new Int32Array(clusters),
  next: 1,
  packed: null,
});

/** First two fields of a cluster in the sweeps' rooms, and how many it has: together one line of cache at most. */
export const OPEN = 0;
export const LIVES = 1;
export const STRIDE = 4;

/** Labels of a part's rows in its order, counted from 0. */
export interface LabelsInOrder {
  /** label · 2^bits + event. */
  readonly label: Uint32Array;
  readonly bits: number;
  /** Labels alone of those that enter late. */
  readonly lateLabel: Uint32Array;
  /** Clusters with any row in the part. */
  readonly clusters: number;
}

export function labelsInOrder(
  order: RiskOrder,
  part: number,
  columns: { readonly event: Uint8Array; readonly cluster: Codes },
  shared: ClusterLabels,
): LabelsInOrder {
  const { codes, bits } = (shared.packed ??= packClusters(columns.cluster.codes, columns.event));
  const { labels, next: first } = shared;
  const start = order.start[part] as number;
  const label = new Uint32Array((order.start[part + 1] as number) - start);
  const eventMask = 2 ** bits - 1;
  let next = first;
  for (let k = 0; k < label.length; k++) {
    const packed = codes[order.rows[start + k] as number] as number;
    const code = packed >>> bits;
    let own = labels[code] as number;
    if (own < first) labels[code] = own = next++;
    label[k] = ((own - first) << bits) | (packed & eventMask);
  }
  shared.next = next;
  const lateStart = order.lateStart[part] as number;
  const lateLabel = new Uint32Array((order.lateStart[part + 1] as number) - lateStart);
  for (let k = 0; k < lateLabel.length; k++) {
    const packed = codes[order.lateRows[lateStart + k] as number] as number;
    lateLabel[k] = (labels[packed >>> bits] as number) - first;
  }
  return { label, bits, lateLabel, clusters: next - first };
}

function packClusters(clusters: Int32Array, event: Uint8Array): PackedClusters {
  let most = 0;
  for (let row = 0; row < event.length; row++) if ((event[row] as number) > most) most = event[row] as number;
  const bits = 32 - Math.clz32(most);
  const codes = new Uint32Array(clusters.length);
  for (let row = 0; row < codes.length; row++)
    codes[row] = ((clusters[row] as number) << bits) | (event[row] as number);
  return { codes, bits };
}

/** Weight and lives of each cluster at risk from the start: all, less those who enter late. */
export function openFromStart(
  room: Float64Array,
  order: RiskOrder,
  part: number,
  { label, bits, lateLabel }: LabelsInOrder,
  weight: Float64Array | null,
): void {
  const add = (base: number, w: number, count: number) => {
    const now = (room[base + LIVES] as number) + count;
    room[base + LIVES] = now;
    // Of fractional weights taken off again nothing may stay where nobody is left.
    room[base + OPEN] = now === 0 ? 0 : (room[base + OPEN] as number) + w;
  };
  const start = order.start[part] as number;
  for (let k = 0; k < label.length; k++)
    add(((label[k] as number) >>> bits) * STRIDE, weight ? (weight[order.rows[start + k] as number] as number) : 1, 1);
  const lateStart = order.lateStart[part] as number;
  for (let k = 0; k < lateLabel.length; k++)
    add(
      (lateLabel[k] as number) * STRIDE,
      weight ? -(weight[order.lateRows[lateStart + k] as number] as number) : -1,
      -1,
    );
}
