import type { CheckedLives } from './checked-lives.ts';
import { GroupsAtRisk, type LogRankSums } from './log-rank-sweep.ts';
import type { RiskOrder } from './risk-order.ts';
import type { Codes } from './survival-data.ts';

/**
 * Covariance of the log-rank scores with clusters moving as one. A row of group g adds to the score of
 * group k, at each event time it is at risk, factor·(1{g = k} − n_k/n)·(dN − d/n) (Lin & Wei 1989 at no
 * effect). What a row at risk gathers is the same for all of its group, so running totals are taken
 * at its entry and exit: O(rows × groups), whatever the number of clusters.
 */
export function clusterScores(
  order: RiskOrder,
  lives: CheckedLives,
  event: Uint8Array,
  cluster: Codes,
  rho: 0 | 1,
  { observed }: LogRankSums,
): { variance: Float64Array; clusters: number } {
  const groups = observed.length;
  const scores = new Float64Array(cluster.count * groups);
  const risk = new GroupsAtRisk(groups);
  for (let part = 0; part < order.parts; part++) scoreStratum(order, part, lives, event, cluster, rho, risk, scores);
  const variance = new Float64Array(groups * groups);
  for (let base = 0; base < scores.length; base += groups)
    for (let k = 0; k < groups; k++) {
      const score = scores[base + k] as number;
      if (score === 0) continue;
      for (let l = 0; l < groups; l++)
        variance[k * groups + l] = (variance[k * groups + l] as number) + score * (scores[base + l] as number);
    }
  const used = new Uint8Array(cluster.count);
  let clusters = 0;
  for (let row = 0; row < lives.rows; row++) {
    const code = cluster.codes[row] as number;
    if (used[code] === 0) clusters++;
    used[code] = 1;
  }
  return { variance, clusters };
}

function scoreStratum(
  order: RiskOrder,
  part: number,
  lives: CheckedLives,
  event: Uint8Array,
  cluster: Codes,
  rho: 0 | 1,
  risk: GroupsAtRisk,
  scores: Float64Array,
): void {
  const { rows, time, lateRows, lateTime, firstExit } = order;
  const { entry, weight } = lives;
  const codes = lives.group.codes;
  const groups = risk.atRisk.length;
  const atRisk = risk.atRisk;
  const start = order.start[part] as number;
  const end = order.start[part + 1] as number;
  const lateEnd = order.lateStart[part + 1] as number;
  // Σ factor·d/n, and Σ factor·d/n·(n_k/n) by group.
  let total = 0;
  const shared = new Float64Array(groups);
  const gather = (row: number, weight: number): void => {
    const base = (cluster.codes[row] as number) * groups;
    for (let k = 0; k < groups; k++) scores[base + k] = (scores[base + k] as number) - weight * (shared[k] as number);
    const mine = base + (codes[row] as number);
    scores[mine] = (scores[mine] as number) + weight * total;
  };
  risk.clear();
  for (let k = start; k < end; k++) {
    const row = rows[k] as number;
    if (entry === null || (entry[row] as number) < firstExit)
      risk.enter(codes[row] as number, weight === null ? 1 : (weight[row] as number));
  }
  let survival = 1;
  let late = order.lateStart[part] as number;
  for (let k = start; k < end;) {
    const now = time[k] as number;
    for (; late < lateEnd && (lateTime[late] as number) < now; late++) {
      const row = lateRows[late] as number;
      const w = weight === null ? 1 : (weight[row] as number);
      risk.enter(codes[row] as number, w);
      gather(row, w);
    }
    let d = 0;
    let next = k;
    for (; next < end && time[next] === now; next++) {
      const row = rows[next] as number;
      if (event[row] !== 0) d += weight === null ? 1 : (weight[row] as number);
    }
    let n = 0;
    const factor = rho === 0 ? 1 : survival;
    if (d > 0) {
      for (let group = 0; group < groups; group++) n += atRisk[group] as number;
      const hazard = (factor * d) / n;
      total += hazard;
      for (let group = 0; group < groups; group++)
        shared[group] = (shared[group] as number) + (hazard * (atRisk[group] as number)) / n;
      survival *= n > d ? (n - d) / n : 0;
    }
    for (let place = k; place < next; place++) {
      const row = rows[place] as number;
      const w = weight === null ? 1 : (weight[row] as number);
      gather(row, -w);
      if (event[row] === 0 || d === 0) continue;
      const base = (cluster.codes[row] as number) * groups;
      for (let group = 0; group < groups; group++)
        scores[base + group] = (scores[base + group] as number) - (w * factor * (atRisk[group] as number)) / n;
      const mine = base + (codes[row] as number);
      scores[mine] = (scores[mine] as number) + w * factor;
    }
    for (; k < next; k++) {
      const row = rows[k] as number;
      risk.leave(codes[row] as number, weight === null ? 1 : (weight[row] as number));
    }
  }
}
