import { accumulate } from './turnbull-likelihood.ts';
import type { TurnbullProblem } from './turnbull-problem.ts';

/**
 * Self-consistent steps (Turnbull 1976) in hazard form: of the lives expected at risk in each
 * interval, the share expected to end there. From equal masses.
 */
export function selfConsistentStart(problem: TurnbullProblem, steps: number): Float64Array {
  const { last } = problem;
  const x = new Float64Array(last);
  for (let j = 0; j < last; j++) x[j] = -Math.log1p(-1 / (last + 1 - j));
  const room = {
    survival: new Float64Array(last + 2),
    share: new Float64Array(last + 1),
    after: new Float64Array(last + 1),
  };
  for (let step = 0; step < steps; step++) selfConsistent(problem, x, room);
  return x;
}

/** One step, in place. */
function selfConsistent(
  { cost, from, to, weight, reaching, last }: TurnbullProblem,
  x: Float64Array,
  {
    survival,
    share,
    after,
  }: { readonly survival: Float64Array; readonly share: Float64Array; readonly after: Float64Array },
): void {
  survival[0] = 1;
  for (let j = 0; j < last; j++) survival[j + 1] = (survival[j] as number) * Math.exp(-(x[j] as number));
  if ((survival[last] as number) < 1e-200) return;
  share.fill(0);
  after.fill(0);
  for (let r = 0; r < weight.length; r++) {
    const begin = from[r] as number;
    const end = (to[r] as number) + 1;
    const tail = survival[end] as number;
    const perMass = (weight[r] as number) / ((survival[begin] as number) - tail);
    share[begin] = (share[begin] as number) + perMass;
    after[begin] = (after[begin] as number) + perMass * tail;
    share[end] = (share[end] as number) - perMass;
    after[end] = (after[end] as number) - perMass * tail;
  }
  // Sets that reach the end: nothing is left after them.
  for (let j = 0; j <= last; j++)
    if (reaching[j]) share[j] = (share[j] as number) + (reaching[j] as number) / (survival[j] as number);
  accumulate(share, last);
  accumulate(after, last);
  for (let j = 0; j < last; j++) {
    const events = ((survival[j] as number) - (survival[j + 1] as number)) * (share[j] as number);
    const atRisk = (cost[j] as number) + (survival[j] as number) * (share[j] as number) - (after[j] as number);
    const next = -Math.log1p(-Math.min(events / atRisk, 1 - 1e-9));
    if (Number.isFinite(next)) x[j] = next;
  }
}

/**
 * The fewest intervals that meet every set (earliest-end-first), with equal masses: a start from
 * which support is added where the slope says so.
 */
export function sparseStart({ from, to, last }: TurnbullProblem): Float64Array {
  const latest = new Int32Array(last).fill(-1);
  for (let r = 0; r < from.length; r++)
    if ((from[r] as number) > (latest[to[r] as number] as number)) latest[to[r] as number] = from[r] as number;
  const x = new Float64Array(last);
  const chosen: number[] = [];
  for (let j = 0, met = -1; j < last; j++) if ((latest[j] as number) > met) chosen.push((met = j));
  chosen.forEach((j, k) => (x[j] = -Math.log1p(-1 / (chosen.length + 1 - k))));
  return x;
}
