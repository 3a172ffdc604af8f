import type { CheckedLives } from './checked-lives.ts';
import type { RiskOrder } from './risk-order.ts';

/** What is met on a walk along time through one stratum. */
export interface GrayVisitor {
  /** A row that comes under observation after the first exit; rows at risk from the start are not announced. */
  enter?(row: number, group: number, weight: number): void;
  /** A time with events: `state` holds what was before them, and the effects that follow from it. */
  atEvents(state: GrayState): void;
  /** A row that leaves, after the events of its time. */
  leave?(row: number, group: number, weight: number): void;
}

/**
 * Gray's quantities along one stratum: of each group k lives at risk n, survival S of all causes and incidence F of
 * the cause just before a time; the pooled incidence F₀ under no difference. An event of group k at t pulls on the
 * score of group i by a_ik(t) + h_k(t)·(c_ik(end) − c_ik(t)): at once, and through F₀ ever after (Gray 1988 §2–3).
 */
export class GrayState {
  readonly groups: number;
  readonly atRisk: Float64Array;
  readonly survival: Float64Array;
  readonly incidence: Float64Array;
  /** Events of the cause and of the others at the time. */
  readonly own: Float64Array;
  readonly other: Float64Array;
  /** n/S: the lives there would be at risk of the cause, had none been lost. A group that once ran out stays out. */
  readonly share: Float64Array;
  /** Row i, column k; c up to and with the time. */
  readonly a: Float64Array;
  readonly c: Float64Array;
  /** Σ share, and Σ share·(1 − F). */
  pool = 0;
  free = 0;
  failures = 0;
  factor = 0;
  pooled = 0;
  /** 1 − F₀ after the time. */
  left = 1;

  constructor(groups: number) {
    const room = () => new Float64Array(groups);
    this.groups = groups;
    [this.atRisk, this.survival, this.incidence] = [room(), room().fill(1), room()];
    [this.own, this.other, this.share] = [room(), room(), room()];
    [this.a, this.c] = [new Float64Array(groups * groups), new Float64Array(groups * groups)];
  }

  /** S of group k after the events of the time. */
  survivalAfter(k: number): number {
    const lost = (this.own[k] as number) + (this.other[k] as number);
    return ((this.survival[k] as number) * ((this.atRisk[k] as number) - lost)) / (this.atRisk[k] as number);
  }

  /** Works out the effects of the events gathered; false when nobody that counts is at risk. */
  look(rho: number): boolean {
    const { groups, atRisk, survival, incidence, share } = this;
    [this.pool, this.free, this.failures] = [0, 0, 0];
    for (let k = 0; k < groups; k++) {
      share[k] = (survival[k] as number) > 0 ? (atRisk[k] as number) / (survival[k] as number) : 0;
      this.failures += this.own[k] as number;
      this.pool += share[k] as number;
      this.free += (share[k] as number) * (1 - (incidence[k] as number));
    }
    if (!(this.pool > 0)) return false;
    this.factor = (1 - this.pooled) ** rho;
    this.left = 1 - this.pooled - this.failures / this.pool;
    const hazard = this.failures / (this.pool * (1 - this.pooled));
    for (let i = 0; i < groups; i++)
      for (let k = 0; k < groups; k++) {
        const cell = i * groups + k;
        const effect = this.factor * (share[i] as number) * ((i === k ? 1 : 0) - (share[k] as number) / this.pool);
        this.a[cell] = effect;
        this.c[cell] = (this.c[cell] as number) + effect * hazard;
      }
    return true;
  }

  /** Moves the curves past the time. */
  pass(): void {
    for (let k = 0; k < this.groups; k++) {
      if ((this.share[k] as number) === 0) continue;
      const before = this.survival[k] as number;
      this.incidence[k] =
        (this.incidence[k] as number) + (before * (this.own[k] as number)) / (this.atRisk[k] as number);
      this.survival[k] = this.survivalAfter(k);
    }
    this.pooled = 1 - this.left;
  }
}

/** Walks one stratum in time; returns the state at its end. */
export function walkGray(
  order: RiskOrder,
  part: number,
  lives: CheckedLives,
  event: Uint8Array,
  { cause, rho }: { readonly cause: number; readonly rho: number },
  visitor: GrayVisitor,
): GrayState {
  const { rows, time, lateRows, lateTime, firstExit } = order;
  const codes = lives.group.codes;
  const weightOf = (row: number): number => (lives.weight === null ? 1 : (lives.weight[row] as number));
  const start = order.start[part] as number;
  const end = order.start[part + 1] as number;
  const lateEnd = order.lateStart[part + 1] as number;
  const state = new GrayState(lives.group.levels.length);
  const add = (counts: Float64Array, row: number, sign: number): void => {
    const group = codes[row] as number;
    counts[group] = (counts[group] as number) + sign * weightOf(row);
  };
  for (let k = start; k < end; k++) {
    const row = rows[k] as number;
    if (lives.entry === null || (lives.entry[row] as number) < firstExit) add(state.atRisk, row, 1);
  }
  let late = order.lateStart[part] as number;
  for (let k = start; k < end;) {
    const now = time[k] as number;
    for (; late < lateEnd && (lateTime[late] as number) < now; late++) {
      const row = lateRows[late] as number;
      add(state.atRisk, row, 1);
      visitor.enter?.(row, codes[row] as number, weightOf(row));
    }
    let next = k;
    let events = 0;
    for (; next < end && time[next] === now; next++) {
      const row = rows[next] as number;
      if (event[row] === 0) continue;
      add(event[row] === cause ? state.own : state.other, row, 1);
      events++;
    }
    if (events > 0) {
      if (state.look(rho)) {
        visitor.atEvents(state);
        state.pass();
      }
      state.own.fill(0);
      state.other.fill(0);
    }
    for (; k < next; k++) {
      const row = rows[k] as number;
      visitor.leave?.(row, codes[row] as number, weightOf(row));
      add(state.atRisk, row, -1);
    }
  }
  return state;
}
