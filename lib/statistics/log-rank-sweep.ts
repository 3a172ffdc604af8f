import type { CheckedLives } from './checked-lives.ts';
import { GroupRisk, type PackedCodes } from './group-risk.ts';
import { LogRankTotals, type LogRankSums } from './log-rank-totals.ts';
import type { RiskOrder } from './risk-order.ts';

/**
 * One sweep a stratum; O(rows + event times × groups²). `inOrder` are the rows' packed codes in the order of the sweep,
 * `rho` is the power of the pooled survival.
 */
export function sweepLogRank(order: RiskOrder, lives: CheckedLives, inOrder: PackedCodes, rho: 0 | 1): LogRankSums {
  const groups = lives.group.levels.length;
  const totals = new LogRankTotals(groups);
  const risk = new GroupRisk(groups);
  for (let part = 0; part < order.parts; part++) {
    risk.begin(order, part, inOrder, lives);
    if (lives.weight === null) countStratum(order, part, lives.group.codes, inOrder, rho, risk, totals);
    else weighStratum(order, part, lives.group.codes, lives.weight, inOrder, rho, risk, totals);
  }
  return totals.sums();
}

/** Every row counts once. */
function countStratum(
  order: RiskOrder,
  part: number,
  codes: Int32Array,
  inOrder: PackedCodes,
  rho: 0 | 1,
  { atRisk, tally }: GroupRisk,
  totals: LogRankTotals,
): void {
  const { time, lateRows, lateTime } = order;
  totals.addTally(tally, rho === 0);
  const end = order.start[part + 1] as number;
  const lateEnd = order.lateStart[part + 1] as number;
  let n = atRisk.reduce((sum, lives) => sum + lives, 0);
  let survival = 1;
  let late = order.lateStart[part] as number;
  for (let k = order.start[part] as number; k < end;) {
    const now = time[k] as number;
    for (; late < lateEnd && (lateTime[late] as number) < now; late++, n++) {
      const group = codes[lateRows[late] as number] as number;
      atRisk[group] = (atRisk[group] as number) + 1;
    }
    const first = k;
    let d = 0;
    do {
      d += (inOrder[k] as number) & 1;
      k++;
    } while (k < end && time[k] === now);
    if (d > 0) {
      totals.addEventTime(atRisk, n, d, rho === 0 ? 1 : survival);
      if (rho === 1) totals.addObserved(inOrder, first, k, survival);
      survival *= n > d ? (n - d) / n : 0;
    }
    for (let place = first; place < k; place++) {
      const group = (inOrder[place] as number) >>> 1;
      atRisk[group] = (atRisk[group] as number) - 1;
    }
    n -= k - first;
  }
}

function weighStratum(
  order: RiskOrder,
  part: number,
  codes: Int32Array,
  weight: Float64Array,
  inOrder: PackedCodes,
  rho: 0 | 1,
  risk: GroupRisk,
  totals: LogRankTotals,
): void {
  const { rows, time, lateRows, lateTime } = order;
  const { observed, lives } = totals;
  const end = order.start[part + 1] as number;
  const lateEnd = order.lateStart[part + 1] as number;
  let survival = 1;
  let late = order.lateStart[part] as number;
  for (let k = order.start[part] as number; k < end;) {
    const now = time[k] as number;
    for (; late < lateEnd && (lateTime[late] as number) < now; late++) {
      const row = lateRows[late] as number;
      risk.enter(codes[row] as number, weight[row] as number);
    }
    const factor = rho === 0 ? 1 : survival;
    let [d, next] = [0, k];
    for (; next < end && time[next] === now; next++) {
      const code = inOrder[next] as number;
      if ((code & 1) === 0) continue;
      const w = weight[rows[next] as number] as number;
      observed[code >>> 1] = (observed[code >>> 1] as number) + factor * w;
      d += w;
    }
    if (d > 0) {
      const n = risk.atRisk.reduce((sum, share) => sum + share, 0);
      totals.addEventTime(risk.atRisk, n, d, factor);
      survival *= n > d ? (n - d) / n : 0;
    }
    for (; k < next; k++) {
      const group = (inOrder[k] as number) >>> 1;
      const w = weight[rows[k] as number] as number;
      lives[group] = (lives[group] as number) + w;
      risk.leave(group, w);
    }
  }
}
