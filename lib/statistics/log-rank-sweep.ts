import type { CheckedLives } from './checked-lives.ts';
import type { RiskOrder } from './risk-order.ts';

/** Sums over the distinct event times of all strata. */
export interface LogRankSums {
  readonly observed: Float64Array;
  readonly expected: Float64Array;
  /** Row-major, groups × groups. */
  readonly variance: Float64Array;
}

/** The weight at risk of each group, held with compensation so that fractional weights leave nothing behind. */
export class GroupsAtRisk {
  readonly atRisk: Float64Array;
  readonly #rest: Float64Array;
  readonly #lives: Int32Array;

  constructor(groups: number) {
    this.atRisk = new Float64Array(groups);
    this.#rest = new Float64Array(groups);
    this.#lives = new Int32Array(groups);
  }

  enter(group: number, weight: number): void {
    if (weight === 0) return;
    this.#lives[group] = (this.#lives[group] as number) + 1;
    this.#add(group, weight);
  }

  leave(group: number, weight: number): void {
    if (weight === 0) return;
    const lives = (this.#lives[group] as number) - 1;
    this.#lives[group] = lives;
    if (lives > 0) this.#add(group, -weight);
    else this.atRisk[group] = this.#rest[group] = 0;
  }

  clear(): void {
    this.atRisk.fill(0);
    this.#rest.fill(0);
    this.#lives.fill(0);
  }

  #add(group: number, weight: number): void {
    const old = this.atRisk[group] as number;
    const step = weight + (this.#rest[group] as number);
    const next = old + step;
    const moved = next - old;
    this.#rest[group] = old - (next - moved) + (step - moved);
    this.atRisk[group] = next;
  }
}

/** One sweep a stratum; O(rows + event times × groups²). `rho` is the power of the pooled survival. */
export function sweepLogRank(order: RiskOrder, lives: CheckedLives, event: Uint8Array, rho: 0 | 1): LogRankSums {
  const groups = lives.group.levels.length;
  const sums = {
    observed: new Float64Array(groups),
    expected: new Float64Array(groups),
    below: new Float64Array((groups * (groups + 1)) / 2),
  };
  const risk = new GroupsAtRisk(groups);
  for (let part = 0; part < order.parts; part++) sweepStratum(order, part, lives, event, rho, risk, sums);
  const variance = new Float64Array(groups * groups);
  for (let k = 0, cell = 0; k < groups; k++)
    for (let l = 0; l <= k; l++, cell++)
      variance[l * groups + k] = variance[k * groups + l] = sums.below[cell] as number;
  return { observed: sums.observed, expected: sums.expected, variance };
}

interface TriangularSums extends Omit<LogRankSums, 'variance'> {
  /** The lower triangle of the variance, row by row: walked in step with the groups, it needs no index arithmetic. */
  readonly below: Float64Array;
}

function sweepStratum(
  order: RiskOrder,
  part: number,
  lives: CheckedLives,
  event: Uint8Array,
  rho: 0 | 1,
  risk: GroupsAtRisk,
  { observed, expected, below }: TriangularSums,
): void {
  const { rows, time, lateRows, lateTime, firstExit } = order;
  const { entry, weight } = lives;
  const codes = lives.group.codes;
  const groups = observed.length;
  const atRisk = risk.atRisk;
  const failed = new Float64Array(groups);
  const shares = new Float64Array(groups);
  const start = order.start[part] as number;
  const end = order.start[part + 1] as number;
  const lateEnd = order.lateStart[part + 1] as number;
  risk.clear();
  for (let k = start; k < end; k++) {
    const row = rows[k] as number;
    if (entry !== null && (entry[row] as number) >= firstExit) continue;
    const code = codes[row] as number;
    if (weight === null) atRisk[code] = (atRisk[code] as number) + 1;
    else risk.enter(code, weight[row] as number);
  }
  let survival = 1;
  let late = order.lateStart[part] as number;
  for (let k = start; k < end;) {
    const now = time[k] as number;
    for (; late < lateEnd && (lateTime[late] as number) < now; late++) {
      const row = lateRows[late] as number;
      const code = codes[row] as number;
      if (weight === null) atRisk[code] = (atRisk[code] as number) + 1;
      else risk.enter(code, weight[row] as number);
    }
    let d = 0;
    let next = k;
    for (; next < end && time[next] === now; next++) {
      const row = rows[next] as number;
      if (event[row] === 0) continue;
      const w = weight === null ? 1 : (weight[row] as number);
      const code = codes[row] as number;
      failed[code] = (failed[code] as number) + w;
      d += w;
    }
    if (d > 0) {
      const factor = rho === 0 ? 1 : survival;
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
      survival *= n > d ? (n - d) / n : 0;
    }
    for (; k < next; k++) {
      const row = rows[k] as number;
      const code = codes[row] as number;
      if (weight === null) atRisk[code] = (atRisk[code] as number) - 1;
      else risk.leave(code, weight[row] as number);
    }
  }
}
