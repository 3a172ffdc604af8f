import type { CheckedLives } from './checked-lives.ts';
import { walkGray, type GrayState, type GrayVisitor } from './gray-state.ts';
import type { RiskOrder } from './risk-order.ts';
import type { GroupScores } from './score-test.ts';

/** Adds one stratum to the sums, O(rows + event times × groups³); returns the c_ik at its end. */
export function grayStratum(
  order: RiskOrder,
  part: number,
  lives: CheckedLives,
  event: Uint8Array,
  weighing: { readonly cause: number; readonly rho: number },
  sums: GroupScores,
): Float64Array {
  const pull = new GrayVariance(lives.group.levels.length, sums);
  const { c } = walkGray(order, part, lives, event, weighing, pull);
  pull.addTo(sums.variance, c);
  return c;
}

/** The variance of a stratum's scores. As c's end is known only last, the sums of squares are kept in three pieces: without it, crossed with it, and h². */
class GrayVariance implements GrayVisitor {
  /** The cross piece: row i, column k. */
  readonly crossed: Float64Array;
  readonly squared: Float64Array;
  readonly without: Float64Array;

  constructor(
    readonly groups: number,
    readonly sums: GroupScores,
  ) {
    this.crossed = new Float64Array(groups * groups);
    this.squared = new Float64Array(groups);
    this.without = new Float64Array(groups * groups);
  }

  atEvents(state: GrayState): void {
    const { observed, expected } = this.sums;
    const { share, incidence, factor, failures, free } = state;
    for (let k = 0; k < this.groups; k++) {
      if ((share[k] as number) === 0) continue;
      observed[k] = (observed[k] as number) + factor * (state.own[k] as number);
      const due = (failures * (share[k] as number) * (1 - (incidence[k] as number))) / free;
      expected[k] = (expected[k] as number) + factor * due;
      this.addGroup(state, k);
    }
  }

  /** Group k's martingale variances at this time, from events of the cause (pooled) and of the others (its own). */
  addGroup(state: GrayState, k: number): void {
    const { failures, pool, left } = state;
    const n = state.atRisk[k] as number;
    const before = state.survival[k] as number;
    const other = state.other[k] as number;
    const after = state.survivalAfter(k);
    if (failures > 0) {
      const ties = failures > 1 ? 1 - (failures - 1) / (pool * before - 1) : 1;
      this.addPiece(state, k, 1, after > 0 ? 1 - left / after : 1, (ties * before * failures) / (pool * n));
    }
    if (other > 0 && after > 0) {
      const ties = other > 1 ? 1 - (other - 1) / (n - 1) : 1;
      this.addPiece(state, k, 0, -left / after, (ties * before * before * other) / (n * n));
    }
  }

  addPiece({ a, c }: GrayState, k: number, atOnce: 0 | 1, later: number, size: number): void {
    const { groups, crossed, squared, without } = this;
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

  addTo(variance: Float64Array, c: Float64Array): void {
    const { groups, squared, without } = this;
    for (let i = 0; i < groups; i++) {
      // The pieces of a variance that is truly 0 cancel to rounding, which must not pass for information.
      let size = without[i * groups + i] as number;
      for (let k = 0; k < groups; k++) size += (c[i * groups + k] as number) ** 2 * (squared[k] as number);
      if (!(this.covariance(c, i, i) > 1e-12 * size)) continue;
      for (let j = 0; j < groups; j++) {
        const cell = i * groups + j;
        variance[cell] = (variance[cell] as number) + this.covariance(c, Math.max(i, j), Math.min(i, j));
      }
    }
  }

  covariance(c: Float64Array, i: number, j: number): number {
    const { groups, crossed, squared, without } = this;
    let sum = without[i * groups + j] as number;
    for (let k = 0; k < groups; k++) {
      const [ci, cj] = [c[i * groups + k] as number, c[j * groups + k] as number];
      sum += ci * cj * (squared[k] as number);
      sum += ci * (crossed[j * groups + k] as number) + cj * (crossed[i * groups + k] as number);
    }
    return sum;
  }
}
