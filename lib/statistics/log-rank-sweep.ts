import type { CheckedLives } from './checked-lives.ts';
import { codesInOrder, GroupRisk, type PackedCodes } from './group-risk.ts';
import type { RiskOrder } from './risk-order.ts';
import type { GroupScores } from './score-test.ts';

interface TriangularSums extends Omit<GroupScores, 'variance'> {
  /** The lower triangle of the variance, row by row: walked in step with the groups, it needs no index arithmetic. */
  readonly below: Float64Array;
}

/** One sweep a stratum; O(rows + event times × groups²). `rho` is the power of the pooled survival. */
export function sweepLogRank(order: RiskOrder, lives: CheckedLives, event: Uint8Array, rho: 0 | 1): GroupScores {
  const groups = lives.group.levels.length;
  const sums = {
    observed: new Float64Array(groups),
    expected: new Float64Array(groups),
    below: new Float64Array((groups * (groups + 1)) / 2),
  };
  const inOrder = codesInOrder(order, lives, event);
  const risk = new GroupRisk(groups);
  for (let part = 0; part < order.parts; part++) {
    risk.begin(order, part, inOrder, lives);
    sweepStratum(order, part, lives, inOrder, rho, risk, sums);
  }
  const variance = new Float64Array(groups * groups);
  for (let k = 0, cell = 0; k < groups; k++)
    for (let l = 0; l <= k; l++, cell++)
      variance[l * groups + k] = variance[k * groups + l] = sums.below[cell] as number;
  return { observed: sums.observed, expected: sums.expected, variance };
}

function sweepStratum(
  order: RiskOrder,
  part: number,
  lives: CheckedLives,
  inOrder: PackedCodes,
  rho: 0 | 1,
  risk: GroupRisk,
  sums: TriangularSums,
): void {
  const { rows, time, lateRows, lateTime } = order;
  const { weight } = lives;
  const codes = lives.group.codes;
  const atRisk = risk.atRisk;
  const failed = new Float64Array(atRisk.length);
  const shares = new Float64Array(atRisk.length);
  const end = order.start[part + 1] as number;
  const lateEnd = order.lateStart[part + 1] as number;
  let survival = 1;
  let late = order.lateStart[part] as number;
  for (let k = order.start[part] as number; k < end;) {
    const now = time[k] as number;
    for (; late < lateEnd && (lateTime[late] as number) < now; late++) {
      const row = lateRows[late] as number;
      const group = codes[row] as number;
      if (weight === null) atRisk[group] = (atRisk[group] as number) + 1;
      else risk.enter(group, weight[row] as number);
    }
    let d = 0;
    let next = k;
    for (; next < end && time[next] === now; next++) {
      const code = inOrder[next] as number;
      if ((code & 1) === 0) continue;
      const w = weight === null ? 1 : (weight[rows[next] as number] as number);
      failed[code >>> 1] = (failed[code >>> 1] as number) + w;
      d += w;
    }
    if (d > 0) {
      const n = addEventTime(atRisk, failed, d, rho === 0 ? 1 : survival, shares, sums);
      survival *= n > d ? (n - d) / n : 0;
    }
    for (; k < next; k++) {
      const group = (inOrder[k] as number) >>> 1;
      if (weight === null) atRisk[group] = (atRisk[group] as number) - 1;
      else risk.leave(group, weight[rows[k] as number] as number);
    }
  }
}

/** One event time's part of the sums; returns how many were at risk in all. `shares` is scratch, `failed` is emptied. */
function addEventTime(
  atRisk: Float64Array,
  failed: Float64Array,
  d: number,
  factor: number,
  shares: Float64Array,
  { observed, expected, below }: TriangularSums,
): number {
  const groups = atRisk.length;
  let n = 0;
  for (let group = 0; group < groups; group++) n += atRisk[group] as number;
  const spread = n > 1 && n > d ? (factor * factor * d * (n - d)) / (n - 1) : 0;
  for (let group = 0, cell = 0; group < groups; group++) {
    observed[group] = (observed[group] as number) + factor * (failed[group] as number);
    failed[group] = 0;
    const share = (atRisk[group] as number) / n;
    shares[group] = share;
    expected[group] = (expected[group] as number) + factor * d * share;
    const across = spread * share;
    for (let other = 0; other < group; other++, cell++)
      below[cell] = (below[cell] as number) - across * (shares[other] as number);
    below[cell] = (below[cell] as number) + across * (1 - share);
    cell++;
  }
  return n;
}
