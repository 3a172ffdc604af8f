import type { CheckedLives } from './checked-lives.ts';
import { walkGray, type GrayState, type GrayVisitor } from './gray-state.ts';
import type { RiskOrder } from './risk-order.ts';
import { gatherCodes, type Codes } from './survival-data.ts';

/**
 * Adds the pulls of one stratum's rows on Gray's scores to `scores`, a row of groups a cluster (Chen, Kramer, Greene &
 * Rosenberg 2008, Biometrics 64:172). A row of group k pulls on score i by the integral of its two martingales, of the
 * cause with the hazard pooled under no difference and of the other causes with that of its group, each weighed as in
 * the model-based variance. What a row at risk gathers is the same for all of its group, so running totals are taken
 * at its entry and exit. `cEnd` is c_ik at the end of the stratum, known from a first walk.
 *
 * Hazards estimated from the same rows draw the pulls towards nothing: those of a stratum of G clusters are scaled by
 * √(G/(G − 1)), without which a test over strata of 30 vehicles rejects 6.4 % where 5 % is meant, with it 6.0 %.
 */
export function grayClusterScores(
  order: RiskOrder,
  part: number,
  lives: CheckedLives,
  event: Uint8Array,
  weighing: { readonly cause: number; readonly rho: number },
  cEnd: Float64Array,
  cluster: Codes,
  scores: Float64Array,
): void {
  const codes = order.rows.subarray(order.start[part], order.start[part + 1]);
  const { count } = gatherCodes(cluster, codes);
  const scale = count > 1 ? Math.sqrt(count / (count - 1)) : 1;
  walkGray(order, part, lives, event, weighing, new GrayPulls(event, weighing.cause, cEnd, cluster, scale, scores));
}

class GrayPulls implements GrayVisitor {
  readonly groups: number;
  /** By row's group k, then score i: gathered while at risk so far, and what an event of the time adds. */
  readonly total: Float64Array;
  readonly ownJump: Float64Array;
  readonly otherJump: Float64Array;

  constructor(
    readonly event: Uint8Array,
    readonly cause: number,
    readonly cEnd: Float64Array,
    readonly cluster: Codes,
    readonly scale: number,
    readonly scores: Float64Array,
  ) {
    this.groups = Math.round(Math.sqrt(cEnd.length));
    [this.total, this.ownJump, this.otherJump] = [cEnd.map(() => 0), cEnd.map(() => 0), cEnd.map(() => 0)];
  }

  atEvents(state: GrayState): void {
    const { groups, cEnd, total, ownJump, otherJump } = this;
    ownJump.fill(0);
    otherJump.fill(0);
    for (let k = 0; k < groups; k++) {
      const share = state.share[k] as number;
      if (share === 0) continue;
      const after = state.survivalAfter(k);
      const ownHazard = state.failures / (state.pool * (state.survival[k] as number));
      const otherHazard = (state.other[k] as number) / (state.atRisk[k] as number);
      for (let i = 0; i < groups; i++) {
        const [cell, at] = [i * groups + k, k * groups + i];
        const rest = (cEnd[cell] as number) - (state.c[cell] as number);
        const own = ((state.a[cell] as number) + (after > 0 ? 1 - state.left / after : 1) * rest) / share;
        const other = after > 0 ? ((-state.left / after) * rest) / share : 0;
        ownJump[at] = own;
        otherJump[at] = other;
        total[at] = (total[at] as number) + own * ownHazard + other * otherHazard;
      }
    }
  }

  enter(row: number, group: number, weight: number): void {
    this.add(row, group, weight, this.total);
  }

  leave(row: number, group: number, weight: number): void {
    this.add(row, group, -weight, this.total);
    const code = this.event[row] as number;
    if (code !== 0) this.add(row, group, weight, code === this.cause ? this.ownJump : this.otherJump);
  }

  add(row: number, group: number, weight: number, pulls: Float64Array): void {
    const { groups, scores } = this;
    const scaled = weight * this.scale;
    const base = (this.cluster.codes[row] as number) * groups;
    for (let i = 0; i < groups; i++)
      scores[base + i] = (scores[base + i] as number) + scaled * (pulls[group * groups + i] as number);
  }
}
