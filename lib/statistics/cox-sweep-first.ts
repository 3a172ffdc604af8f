import type { CoxProblem } from './cox-problem.ts';
import { factorAt, type RiskSums } from './cox-sweep.ts';

/**
 * Fills `first` and `deathFirst` at the coefficients of the last `sweepTotals`. Four columns at a time, so that their
 * running sums stay in registers while the rows stream by; columns left over go one by one.
 */
export function sweepFirst(problem: CoxProblem, sums: RiskSums): void {
  const { sets, width } = problem;
  const whole = width - (width % 4);
  for (let stratum = 0; stratum < sets.strata.length; stratum++) {
    const from = sets.firstTime[stratum] as number;
    const to = sets.firstTime[stratum + 1] as number;
    for (let j = 0; j < whole; j += 4) sweepFour(problem, sums, from, to, j);
    for (let j = whole; j < width; j++) sweepOne(problem, sums, from, to, j);
  }
}

/** Columns j to j + 3 over one stratum's times, backwards. */
function sweepFour(problem: CoxProblem, sums: RiskSums, from: number, to: number, j: number): void {
  const { width, table, pattern } = problem;
  const { firstPosition, deaths, firstLate, late } = problem.sets;
  const { first, deathFirst, ratio, rebuilt } = sums;
  const plain = problem.weight === null && problem.offset === null;
  let r0 = 0;
  let r1 = 0;
  let r2 = 0;
  let r3 = 0;
  for (let time = to - 1; time >= from; time--) {
    const base = time * width + j;
    let position = firstPosition[time] as number;
    const end = firstPosition[time + 1] as number;
    if ((deaths[time] as number) > 1) {
      let d0 = 0;
      let d1 = 0;
      let d2 = 0;
      let d3 = 0;
      for (const alive = position + (deaths[time] as number); position < alive; position++) {
        const k = pattern[position] as number;
        const risk = plain ? (ratio[k] as number) : (ratio[k] as number) * factorAt(problem, position);
        const at = k * width + j;
        d0 += risk * (table[at] as number);
        d1 += risk * (table[at + 1] as number);
        d2 += risk * (table[at + 2] as number);
        d3 += risk * (table[at + 3] as number);
      }
      deathFirst[base] = d0;
      deathFirst[base + 1] = d1;
      deathFirst[base + 2] = d2;
      deathFirst[base + 3] = d3;
      r0 += d0;
      r1 += d1;
      r2 += d2;
      r3 += d3;
    }
    for (; position < end; position++) {
      const k = pattern[position] as number;
      const risk = plain ? (ratio[k] as number) : (ratio[k] as number) * factorAt(problem, position);
      const at = k * width + j;
      r0 += risk * (table[at] as number);
      r1 += risk * (table[at + 1] as number);
      r2 += risk * (table[at + 2] as number);
      r3 += risk * (table[at + 3] as number);
    }
    if (rebuilt[time] === 1) {
      r0 = freshFirst(problem, ratio, time, to, j);
      r1 = freshFirst(problem, ratio, time, to, j + 1);
      r2 = freshFirst(problem, ratio, time, to, j + 2);
      r3 = freshFirst(problem, ratio, time, to, j + 3);
    } else
      for (let index = firstLate[time] as number; index < (firstLate[time + 1] as number); index++) {
        const k = pattern[late[index] as number] as number;
        const risk = plain ? (ratio[k] as number) : (ratio[k] as number) * factorAt(problem, late[index] as number);
        const at = k * width + j;
        r0 -= risk * (table[at] as number);
        r1 -= risk * (table[at + 1] as number);
        r2 -= risk * (table[at + 2] as number);
        r3 -= risk * (table[at + 3] as number);
      }
    first[base] = r0;
    first[base + 1] = r1;
    first[base + 2] = r2;
    first[base + 3] = r3;
  }
}

function sweepOne(problem: CoxProblem, sums: RiskSums, from: number, to: number, j: number): void {
  const { width, table, pattern } = problem;
  const { firstPosition, deaths, firstLate, late } = problem.sets;
  const { ratio } = sums;
  const term = (position: number): number => {
    const k = pattern[position] as number;
    return (ratio[k] as number) * factorAt(problem, position) * (table[k * width + j] as number);
  };
  let running = 0;
  for (let time = to - 1; time >= from; time--) {
    let position = firstPosition[time] as number;
    const end = firstPosition[time + 1] as number;
    if ((deaths[time] as number) > 1) {
      let dying = 0;
      for (const alive = position + (deaths[time] as number); position < alive; position++) dying += term(position);
      sums.deathFirst[time * width + j] = dying;
      running += dying;
    }
    for (; position < end; position++) running += term(position);
    if (sums.rebuilt[time] === 1) running = freshFirst(problem, ratio, time, to, j);
    else
      for (let index = firstLate[time] as number; index < (firstLate[time + 1] as number); index++)
        running -= term(late[index] as number);
    sums.first[time * width + j] = running;
  }
}

/** Σ risk · column j over those at risk at `time`, in a stratum whose times end before `end`. */
function freshFirst(problem: CoxProblem, ratio: Float64Array, time: number, end: number, j: number): number {
  const { width, table, pattern } = problem;
  const { firstPosition, entryTime } = problem.sets;
  let sum = 0;
  for (let position = firstPosition[time] as number; position < (firstPosition[end] as number); position++) {
    if ((entryTime[position] as number) >= time) continue;
    const k = pattern[position] as number;
    sum += (ratio[k] as number) * factorAt(problem, position) * (table[k * width + j] as number);
  }
  return sum;
}
