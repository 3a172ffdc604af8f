import { riskOrder } from './risk-order.ts';
import { checkSurvival, type CheckedSurvival } from './cox-data.ts';
import type { SurvivalData } from './survival-data.ts';

/**
 * Who is at risk when, worked out once and shared by every evaluation of a partial likelihood and
 * by every fit that differs only in its covariates.
 *
 * Event times are the different times with an event, stratum by stratum, ascending; T of them.
 * A *position* is a row's place when rows are put in that order: rows that leave at or after event
 * time t but before the next one sit together, the events at t first. Rows never at risk at an
 * event time say nothing to a partial likelihood and have no position.
 */
export interface RiskSets {
  readonly rows: number;
  readonly events: number;
  readonly strata: readonly string[];
  /** First event time of each stratum, and T at the end. */
  readonly firstTime: Int32Array;
  readonly time: Float64Array;
  /** Events (rows, not weights) at each event time. */
  readonly deaths: Int32Array;
  /** First position of each event time, and the number of positions at the end. */
  readonly firstPosition: Int32Array;
  /** The row at each position. */
  readonly row: Uint32Array;
  /** Last event time at or before a position's entry, −1 when it is at risk from the stratum's first event time. */
  readonly entryTime: Int32Array;
  /** Positions by `entryTime`: those that come under observation just after event time t. */
  readonly firstLate: Int32Array;
  readonly late: Uint32Array;
}

/**
 * Risk sets of survival data, to be passed as `riskSets` to fits and predictions that differ only in
 * covariates, cluster or offset: exit, event, entry, strata and weight must be the same.
 *
 * @throws StatisticsError as `coxRegression` for those columns.
 * Source: Therneau & Grambsch 2000 §3.7 (counting-process rows). Outside check: that of the fits that use them.
 */
export const coxRiskSets = (data: SurvivalData): RiskSets => riskSetsOf(checkSurvival(data));

/** Risk sets of checked columns. */
export function riskSetsOf(survival: CheckedSurvival): RiskSets {
  const { rows, strata } = survival;
  const levels = strata?.levels ?? ['all'];
  const sorted = sortRows(survival);
  const walk = startWalk(rows, levels.length, survival.entry !== null);
  for (let start = 0; start < rows;) start = walkOneTime(sorted, start, walk);
  closeStrata(walk, levels.length);
  const { times, count } = walk;
  const firstLate = new Int32Array(times + 1);
  const entryTime = walk.entryTime.slice(0, count);
  const firstPosition = walk.firstPosition.slice(0, times + 1);
  firstPosition[times] = count;
  return {
    rows,
    events: walk.events,
    strata: levels,
    firstTime: walk.firstTime,
    time: walk.time.slice(0, times),
    deaths: walk.deaths.slice(0, times),
    firstPosition,
    row: walk.row.slice(0, count),
    entryTime,
    firstLate,
    late: latePositions(entryTime, firstLate),
  };
}

/** The columns by stratum and exit: fetched in one sweep each, since it is the jumping about that takes time. */
interface SortedSurvival {
  readonly order: Uint32Array;
  readonly exit: Float64Array;
  readonly entry: Float64Array | null;
  readonly event: Uint8Array;
  readonly stratum: Int32Array | null;
  /** Rows of no weight have no position. */
  readonly absent: Uint8Array | null;
}

function sortRows({ exit, entry, event, weight, strata }: CheckedSurvival): SortedSurvival {
  const codes = strata ? { count: strata.levels.length, codes: strata.codes } : null;
  const { rows: order, time } = riskOrder(exit, null, codes);
  const fetch = <A extends Float64Array | Uint8Array | Int32Array>(from: A, to: A): A => {
    for (let index = 0; index < order.length; index++) to[index] = from[order[index] as number] as number;
    return to;
  };
  return {
    order,
    exit: time,
    entry: entry ? fetch(entry, new Float64Array(order.length)) : null,
    event: fetch(event, new Uint8Array(order.length)),
    stratum: strata ? fetch(strata.codes, new Int32Array(order.length)) : null,
    absent: weight ? Uint8Array.from(order, (row) => (weight[row] === 0 ? 1 : 0)) : null,
  };
}

/** Risk sets in the making: how far the walk over ordered rows has come. */
interface Walk {
  readonly firstTime: Int32Array;
  readonly time: Float64Array;
  readonly deaths: Int32Array;
  readonly firstPosition: Int32Array;
  readonly row: Uint32Array;
  readonly entryTime: Int32Array;
  stratum: number;
  times: number;
  count: number;
  events: number;
}

const startWalk = (rows: number, strata: number, late: boolean): Walk => ({
  firstTime: new Int32Array(strata + 1),
  time: new Float64Array(rows),
  deaths: new Int32Array(rows),
  firstPosition: new Int32Array(rows + 1),
  row: new Uint32Array(rows),
  entryTime: late ? new Int32Array(rows) : new Int32Array(rows).fill(-1),
  stratum: -1,
  times: 0,
  count: 0,
  events: 0,
});

/** Takes up the rows of one stratum that leave at one time, from `start` on; returns where the next begin. */
function walkOneTime(sorted: SortedSurvival, start: number, walk: Walk): number {
  const { exit, event, stratum, absent } = sorted;
  const exitTime = exit[start] as number;
  const code = stratum ? (stratum[start] as number) : 0;
  while (walk.stratum < code) walk.firstTime[++walk.stratum] = walk.times;
  let [end, died] = [start, 0];
  for (; end < exit.length && exit[end] === exitTime && (!stratum || stratum[end] === code); end++)
    if (event[end] === 1 && (!absent || absent[end] === 0)) died++;
  if (died > 0) {
    walk.time[walk.times] = exitTime;
    walk.deaths[walk.times] = died;
    walk.firstPosition[walk.times] = walk.count;
    walk.times++;
    walk.events += died;
  }
  // Before the first event of the stratum nobody's leaving matters.
  if (walk.times === walk.firstTime[walk.stratum]) return end;
  if (died > 0) for (let index = start; index < end; index++) if (event[index] === 1) place(sorted, index, walk);
  if (died < end - start)
    for (let index = start; index < end; index++) if (event[index] === 0) place(sorted, index, walk);
  return end;
}

/** Gives a row its position, unless it came under observation after the last event time it could meet. */
function place({ order, entry, absent }: SortedSurvival, index: number, walk: Walk): void {
  if (absent !== null && absent[index] === 1) return;
  if (entry !== null) {
    const first = walk.firstTime[walk.stratum] as number;
    const last = lastTimeAtOrBefore(walk.time, first, walk.times, entry[index] as number);
    if (last === walk.times - 1) return;
    walk.entryTime[walk.count] = last;
  }
  walk.row[walk.count++] = order[index] as number;
}

/** Index of the last of the ascending times from `low` to before `high` that is at or before `limit`; −1 for none. */
function lastTimeAtOrBefore(time: Float64Array, low: number, high: number, limit: number): number {
  if (limit < (time[low] as number)) return -1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((time[middle] as number) <= limit) low = middle;
    else high = middle;
  }
  return low;
}

function closeStrata(walk: Walk, strata: number): void {
  for (let stratum = walk.stratum + 1; stratum <= strata; stratum++) walk.firstTime[stratum] = walk.times;
}

/** Positions sorted by entry time (counting sort); fills `firstLate` with where each time's begin. */
function latePositions(entryTime: Int32Array, firstLate: Int32Array): Uint32Array {
  const times = firstLate.length - 1;
  let count = 0;
  for (let position = 0; position < entryTime.length; position++) {
    const time = entryTime[position] as number;
    if (time < 0) continue;
    firstLate[time + 1] = (firstLate[time + 1] as number) + 1;
    count++;
  }
  for (let time = 1; time <= times; time++)
    firstLate[time] = (firstLate[time] as number) + (firstLate[time - 1] as number);
  const next = firstLate.slice();
  const late = new Uint32Array(count);
  for (let position = 0; position < entryTime.length; position++) {
    const time = entryTime[position] as number;
    if (time < 0) continue;
    const place = next[time] as number;
    late[place] = position;
    next[time] = place + 1;
  }
  return late;
}
