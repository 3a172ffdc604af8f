import type { CheckedLives } from './checked-lives.ts';
import type { RiskOrder } from './risk-order.ts';

export interface GraySums {
  readonly observed: Float64Array;
  readonly expected: Float64Array;
  /** Row-major, groups × groups. */
  readonly variance: Float64Array;
}

/** What is known of each group just before a time: lives at risk, survival S of all causes, incidence F. */
interface GroupState {
  readonly atRisk: Float64Array;
  readonly survival: Float64Array;
  readonly incidence: Float64Array;
  /** Events of the cause and of the others at the time. */
  readonly own: Float64Array;
  readonly other: Float64Array;
}

/** Adds one stratum to the sums; O(rows + event times × groups³). */
export function grayStratum(
  order: RiskOrder,
  part: number,
  lives: CheckedLives,
  event: Uint8Array,
  cause: number,
  rho: number,
  sums: GraySums,
): void {
  const { rows, time, lateRows, lateTime, firstExit } = order;
  const { entry, weight } = lives;
  const codes = lives.group.codes;
  const groups = lives.group.levels.length;
  const start = order.start[part] as number;
  const end = order.start[part + 1] as number;
  const lateEnd = order.lateStart[part + 1] as number;
  const state = newState(groups);
  const pull = new GrayVariance(groups);
  const add = (counts: Float64Array, row: number, sign: number): void => {
    const group = codes[row] as number;
    counts[group] = (counts[group] as number) + sign * (weight === null ? 1 : (weight[row] as number));
  };
  for (let k = start; k < end; k++) {
    const row = rows[k] as number;
    if (entry === null || (entry[row] as number) < firstExit) add(state.atRisk, row, 1);
  }
  let late = order.lateStart[part] as number;
  for (let k = start; k < end;) {
    const now = time[k] as number;
    for (; late < lateEnd && (lateTime[late] as number) < now; late++) add(state.atRisk, lateRows[late] as number, 1);
    let next = k;
    let events = 0;
    for (; next < end && time[next] === now; next++) {
      const row = rows[next] as number;
      if (event[row] === 0) continue;
      add(event[row] === cause ? state.own : state.other, row, 1);
      events++;
    }
    if (events > 0) pull.addEventTime(state, rho, sums);
    for (; k < next; k++) add(state.atRisk, rows[k] as number, -1);
  }
  pull.addTo(sums.variance);
}

const newState = (groups: number): GroupState => ({
  atRisk: new Float64Array(groups),
  survival: new Float64Array(groups).fill(1),
  incidence: new Float64Array(groups),
  own: new Float64Array(groups),
  other: new Float64Array(groups),
});

/**
 * The variance of a stratum's scores. An event of group k at time t pulls on the score of group i by
 * a_ik(t) + h_k(t)·(c_ik(end) − c_ik(t)): at once, and through the pooled incidence ever after. As c's end
 * is known only last, the sums of squares are kept in three pieces: without it, crossed with it, and h².
 */
class GrayVariance {
  /** Pooled incidence F₀ under no difference, just before the time. */
  pooled = 0;
  readonly groups: number;
  /** a, c and the cross piece: row i, column k. */
  readonly a: Float64Array;
  readonly c: Float64Array;
  readonly crossed: Float64Array;
  readonly squared: Float64Array;
  readonly without: Float64Array;
  readonly share: Float64Array;

  constructor(groups: number) {
    this.groups = groups;
    this.a = new Float64Array(groups * groups);
    this.c = new Float64Array(groups * groups);
    this.crossed = new Float64Array(groups * groups);
    this.squared = new Float64Array(groups);
    this.without = new Float64Array(groups * groups);
    this.share = new Float64Array(groups);
  }

  /** Takes the events of `state` into the sums and moves its curves past them. */
  addEventTime(state: GroupState, rho: number, sums: GraySums): void {
    const { groups, share } = this;
    const { atRisk, survival, incidence, own } = state;
    let failures = 0;
    let [pool, free] = [0, 0];
    for (let k = 0; k < groups; k++) {
      failures += own[k] as number;
      // n/S: the lives there would be at risk of the cause, had none been lost. A group that once ran out stays out.
      share[k] = (survival[k] as number) > 0 ? (atRisk[k] as number) / (survival[k] as number) : 0;
      pool += share[k] as number;
      free += (share[k] as number) * (1 - (incidence[k] as number));
    }
    if (!(pool > 0)) {
      clearEvents(state);
      return;
    }
    const factor = (1 - this.pooled) ** rho;
    this.spreadEffects(factor, failures / (pool * (1 - this.pooled)), pool);
    for (let k = 0; k < groups; k++) {
      if ((share[k] as number) === 0) continue;
      sums.observed[k] = (sums.observed[k] as number) + factor * (own[k] as number);
      const due = (failures * (share[k] as number) * (1 - (incidence[k] as number))) / free;
      sums.expected[k] = (sums.expected[k] as number) + factor * due;
    }
    const left = 1 - this.pooled - failures / pool;
    for (let k = 0; k < groups; k++) if ((share[k] as number) > 0) this.addGroup(state, k, failures, pool, left);
    this.pooled = 1 - left;
    clearEvents(state);
  }

  /** a at this time, and c up to it. */
  spreadEffects(factor: number, hazard: number, pool: number): void {
    const { groups, share, a, c } = this;
    for (let i = 0; i < groups; i++)
      for (let k = 0; k < groups; k++) {
        const cell = i * groups + k;
        const effect = factor * (share[i] as number) * ((i === k ? 1 : 0) - (share[k] as number) / pool);
        a[cell] = effect;
        c[cell] = (c[cell] as number) + effect * hazard;
      }
  }

  /** Group k's martingale variances at this time, from events of the cause (pooled) and of the others (its own). */
  addGroup(state: GroupState, k: number, failures: number, pool: number, left: number): void {
    const n = state.atRisk[k] as number;
    const before = state.survival[k] as number;
    const own = state.own[k] as number;
    const other = state.other[k] as number;
    const after = (before * (n - own - other)) / n;
    if (failures > 0) {
      const ties = failures > 1 ? 1 - (failures - 1) / (pool * before - 1) : 1;
      this.addPiece(k, 1, after > 0 ? 1 - left / after : 1, (ties * before * failures) / (pool * n));
    }
    if (other > 0 && after > 0) {
      const ties = other > 1 ? 1 - (other - 1) / (n - 1) : 1;
      this.addPiece(k, 0, -left / after, (ties * before * before * other) / (n * n));
    }
    state.incidence[k] = (state.incidence[k] as number) + (before * own) / n;
    state.survival[k] = after;
  }

  addPiece(k: number, atOnce: 0 | 1, later: number, size: number): void {
    const { groups, a, c, crossed, squared, without } = this;
    squared[k] = (squared[k] as number) + later * later * size;
    for (let i = 0; i < groups; i++) {
      const row = i * groups + k;
      const pull = atOnce * (a[row] as number) - later * (c[row] as number);
      crossed[row] = (crossed[row] as number) + pull * later * size;
      for (let j = 0; j <= i; j++) {
        const other = j * groups + k;
        const cell = i * groups + j;
        without[cell] =
          (without[cell] as number) + pull * (atOnce * (a[other] as number) - later * (c[other] as number)) * size;
      }
    }
  }

  addTo(variance: Float64Array): void {
    const { groups, c, squared, without } = this;
    for (let i = 0; i < groups; i++) {
      // The pieces of a variance that is truly 0 cancel to rounding, which must not pass for information.
      let size = without[i * groups + i] as number;
      for (let k = 0; k < groups; k++) size += (c[i * groups + k] as number) ** 2 * (squared[k] as number);
      if (!(this.covariance(i, i) > 1e-12 * size)) continue;
      for (let j = 0; j < groups; j++) {
        const cell = i * groups + j;
        variance[cell] = (variance[cell] as number) + this.covariance(Math.max(i, j), Math.min(i, j));
      }
    }
  }

  covariance(i: number, j: number): number {
    const { groups, c, crossed, squared, without } = this;
    let sum = without[i * groups + j] as number;
    for (let k = 0; k < groups; k++) {
      const [ci, cj] = [c[i * groups + k] as number, c[j * groups + k] as number];
      sum += ci * cj * (squared[k] as number);
      sum += ci * (crossed[j * groups + k] as number) + cj * (crossed[i * groups + k] as number);
    }
    return sum;
  }
}

function clearEvents({ own, other }: GroupState): void {
  own.fill(0);
  other.fill(0);
}
