import type { CheckedLives } from './checked-lives.ts';
import { GroupRisk, type PackedCodes } from './group-risk.ts';
import type { RiskOrder } from './risk-order.ts';
import { crossProducts, type ClusterCovariance } from './score-test.ts';
import { clustersUsed, type Codes } from './survival-data.ts';

/**
 * Covariance of the log-rank scores with clusters moving as one. A row of group g adds to the score of
 * group k, at each event time it is at risk, factor·(1{g = k} − n_k/n)·(dN − d/n) (Lin & Wei 1989 at no
 * effect). What a row at risk gathers is the same for all of its group, so running totals are taken
 * at its entry and exit: O(rows × groups), whatever the number of clusters.
 */
export function clusterScores(
  order: RiskOrder,
  lives: CheckedLives,
  inOrder: PackedCodes,
  cluster: Codes,
  rho: 0 | 1,
): ClusterCovariance {
  const groups = lives.group.levels.length;
  const scores = new Float64Array(cluster.count * groups);
  const risk = new GroupRisk(groups);
  for (let part = 0; part < order.parts; part++) {
    risk.begin(order, part, inOrder, lives);
    new StratumScores(order, part, lives, inOrder, cluster, risk, scores).sweep(rho);
  }
  return { variance: crossProducts(scores, groups), clusters: clustersUsed(cluster) };
}

/** One stratum's sweep; `scores` holds a row of groups a cluster. */
class StratumScores {
  /** Σ factor·d/n so far, and Σ factor·(d/n)·(n_k/n) by group. */
  total = 0;
  readonly shared: Float64Array;

  constructor(
    readonly order: RiskOrder,
    readonly part: number,
    readonly lives: CheckedLives,
    readonly inOrder: PackedCodes,
    readonly cluster: Codes,
    readonly risk: GroupRisk,
    readonly scores: Float64Array,
  ) {
    this.shared = new Float64Array(risk.atRisk.length);
  }

  sweep(rho: 0 | 1): void {
    const { order, part, inOrder, risk } = this;
    const { rows, time, lateRows, lateTime } = order;
    const codes = this.lives.group.codes;
    const weight = this.lives.weight;
    const end = order.start[part + 1] as number;
    const lateEnd = order.lateStart[part + 1] as number;
    let survival = 1;
    let late = order.lateStart[part] as number;
    for (let k = order.start[part] as number; k < end;) {
      const now = time[k] as number;
      for (; late < lateEnd && (lateTime[late] as number) < now; late++) {
        const row = lateRows[late] as number;
        const w = weight === null ? 1 : (weight[row] as number);
        risk.enter(codes[row] as number, w);
        this.gather(row, codes[row] as number, w, 0);
      }
      let d = 0;
      let next = k;
      for (; next < end && time[next] === now; next++)
        if ((inOrder[next] as number) & 1) d += weight === null ? 1 : (weight[rows[next] as number] as number);
      const factor = rho === 0 ? 1 : survival;
      const n = d > 0 ? this.addEventTime(d, factor) : 1;
      if (d > 0) survival *= n > d ? (n - d) / n : 0;
      for (let place = k; place < next; place++) {
        const row = rows[place] as number;
        const code = inOrder[place] as number;
        const w = weight === null ? 1 : (weight[row] as number);
        this.gather(row, code >>> 1, -w, (code & 1) * w * factor, n);
      }
      for (; k < next; k++)
        risk.leave((inOrder[k] as number) >>> 1, weight === null ? 1 : (weight[rows[k] as number] as number));
    }
  }

  addEventTime(d: number, factor: number): number {
    const { shared } = this;
    const { atRisk } = this.risk;
    let n = 0;
    for (let group = 0; group < atRisk.length; group++) n += atRisk[group] as number;
    const hazard = (factor * d) / n;
    this.total += hazard;
    for (let group = 0; group < atRisk.length; group++)
      shared[group] = (shared[group] as number) + (hazard * (atRisk[group] as number)) / n;
    return n;
  }

  /** Adds weight × the totals so far to a row's cluster and, for a failure, `atEvent`·(1{own group} − n_k/n). */
  gather(row: number, group: number, weight: number, atEvent: number, n = 1): void {
    const { scores, shared } = this;
    const { atRisk } = this.risk;
    const base = (this.cluster.codes[row] as number) * shared.length;
    const perLife = atEvent / n;
    for (let k = 0; k < shared.length; k++)
      scores[base + k] =
        (scores[base + k] as number) - weight * (shared[k] as number) - perLife * (atRisk[k] as number);
    scores[base + group] = (scores[base + group] as number) + weight * this.total + atEvent;
  }
}
