import { accumulate } from './turnbull-likelihood.ts';
import type { TurnbullProblem } from './turnbull-problem.ts';

/**
 * Self-consistent steps (Turnbull 1976) in hazard form: of the lives expected at risk in each
 * interval, the share expected to end there. From equal masses.
 */
export function selfConsistentStart(problem: TurnbullProblem, steps: number): Float64Array {
  const { last } = problem;
  let x: Float64Array = Float64Array.from({ length: last }, (_, j) => -Math.log1p(-1 / (last + 1 - j)));
  for (let step = 0; step < steps; step++) x = selfConsistent(problem, x);
  return x;
}

function selfConsistent({ cost, from, to, weight, reaching, last }: TurnbullProblem, x: Float64Array): Float64Array {
  const survival = new Float64Array(last + 2);
  survival[0] = 1;
  for (let j = 0; j < last; j++) survival[j + 1] = (survival[j] as number) * Math.exp(-(x[j] as number));
  if ((survival[last] as number) < 1e-200) return x;
  const [share, after] = [new Float64Array(last + 1), new Float64Array(last + 1)];
  const spread = (begin: number, end: number, w: number) => {
    const tail = survival[end] as number;
    const perMass = w / ((survival[begin] as number) - tail);
    share[begin] = (share[begin] as number) + perMass;
    after[begin] = (after[begin] as number) + perMass * tail;
    if (end > last) return;
    share[end] = (share[end] as number) - perMass;
    after[end] = (after[end] as number) - perMass * tail;
  };
  for (let r = 0; r < weight.length; r++) spread(from[r] as number, (to[r] as number) + 1, weight[r] as number);
  for (let j = 0; j <= last; j++) if (reaching[j]) spread(j, last + 1, reaching[j] as number);
  accumulate(share, last);
  accumulate(after, last);
  return x.map((old, j) => {
    const events = ((survival[j] as number) - (survival[j + 1] as number)) * (share[j] as number);
    const atRisk = (cost[j] as number) + (survival[j] as number) * (share[j] as number) - (after[j] as number);
    const next = -Math.log1p(-Math.min(events / atRisk, 1 - 1e-9));
    return Number.isFinite(next) ? next : old;
  });
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
