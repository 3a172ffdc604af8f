import type { CoxAtFit } from './cox-at-fit.ts';
import { factorAt } from './cox-sweep.ts';
import type { Category } from './survival-data.ts';

/** Row-major event times × groups. */
export interface GroupShares {
  /** The share of the risk at each event time that is the group's. */
  readonly share: Float64Array;
  /** Σ share · hazard increment up to and with each event time of the stratum. */
  readonly cumulative: Float64Array;
}

/** Of whose risk the risk sets are made: each group's part of Σ exp(xβ) at every event time of a fit. */
export function groupShares({ problem, sums }: CoxAtFit, { levels, codes }: Category): GroupShares {
  const { sets, pattern } = problem;
  const groups = levels.length;
  const share = new Float64Array(sets.time.length * groups);
  const cumulative = new Float64Array(share.length);
  const held = new Float64Array(groups);
  const add = (position: number, sign: 1 | -1) => {
    const group = codes[sets.row[position] as number] as number;
    const risk = (sums.ratio[pattern[position] as number] as number) * factorAt(problem, position);
    held[group] = Math.max(0, (held[group] as number) + sign * risk);
  };
  for (let stratum = 0; stratum < sets.strata.length; stratum++) {
    const [from, to] = [sets.firstTime[stratum] as number, sets.firstTime[stratum + 1] as number];
    held.fill(0);
    for (let time = to - 1; time >= from; time--) {
      for (let at = sets.firstPosition[time] as number; at < (sets.firstPosition[time + 1] as number); at++) add(at, 1);
      for (let at = sets.firstLate[time] as number; at < (sets.firstLate[time + 1] as number); at++)
        add(sets.late[at] as number, -1);
      const all = held.reduce((sum, value) => sum + value, 0);
      for (let group = 0; group < groups; group++) share[time * groups + group] = (held[group] as number) / all;
    }
    for (let at = from * groups; at < to * groups; at++)
      cumulative[at] =
        (at < (from + 1) * groups ? 0 : (cumulative[at - groups] as number)) +
        (share[at] as number) * (sums.hazard[Math.floor(at / groups)] as number);
  }
  return { share, cumulative };
}
