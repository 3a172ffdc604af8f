import { sortOrder } from './numeric/sort-order.ts';
import type { CheckedSurvival } from './cox-data.ts';
import type { Category } from './survival-data.ts';

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

/** Risk sets of checked columns. `order` is `sortOrder(exit)` where the caller already has it. */
export function riskSetsOf(survival: CheckedSurvival, order: Uint32Array = sortOrder(survival.exit)): RiskSets {
  const { rows, strata } = survival;
  const levels = strata?.levels ?? ['all'];
  const byStratum = strata ? groupOrder(order, strata) : order;
  const timeOfRow = new Int32Array(rows).fill(-1);
  const times = eventTimes(survival, byStratum, levels.length, timeOfRow);
  const entries = entryTimes(survival, times.time, times.firstTime, timeOfRow);
  const placed = placeRows(survival, byStratum, timeOfRow, entries, times.time.length);
  return { rows, strata: levels, ...times, ...placed };
}

/** Reorders rows by stratum, keeping `order` within each. */
function groupOrder(order: Uint32Array, { levels, codes }: Category): Uint32Array {
  const next = new Int32Array(levels.length + 1);
  for (let row = 0; row < codes.length; row++) {
    const after = (codes[row] as number) + 1;
    next[after] = (next[after] as number) + 1;
  }
  for (let level = 1; level <= levels.length; level++)
    next[level] = (next[level] as number) + (next[level - 1] as number);
  const grouped = new Uint32Array(order.length);
  for (let index = 0; index < order.length; index++) {
    const row = order[index] as number;
    const code = codes[row] as number;
    const place = next[code] as number;
    grouped[place] = row;
    next[code] = place + 1;
  }
  return grouped;
}

type EventTimes = Pick<RiskSets, 'time' | 'firstTime' | 'deaths' | 'events'>;

/** Walks rows in order, numbers the event times and notes each row's last event time at or before its exit. */
function eventTimes(survival: CheckedSurvival, order: Uint32Array, strata: number, timeOfRow: Int32Array): EventTimes {
  const { rows, exit, event, weight } = survival;
  const codes = survival.strata?.codes;
  const firstTime = new Int32Array(strata + 1);
  const time: number[] = [];
  const deaths: number[] = [];
  let events = 0;
  for (let start = 0, stratum = -1; start < rows;) {
    const row = order[start] as number;
    for (const code = codes ? (codes[row] as number) : 0; stratum < code;) firstTime[++stratum] = time.length;
    let end = start;
    let died = 0;
    for (; end < rows; end++) {
      const next = order[end] as number;
      if (exit[next] !== exit[row] || (codes && codes[next] !== codes[row])) break;
      if (event[next] === 1 && (weight === null || (weight[next] as number) > 0)) died++;
    }
    if (died > 0) {
      events += died;
      time.push(exit[row] as number);
      deaths.push(died);
    }
    const last = time.length - 1;
    if (last >= (firstTime[stratum] as number)) for (let k = start; k < end; k++) timeOfRow[order[k] as number] = last;
    start = end;
  }
  const known = codes ? (codes[order[rows - 1] as number] as number) + 1 : 1;
  for (let stratum = known; stratum <= strata; stratum++) firstTime[stratum] = time.length;
  return { time: Float64Array.from(time), firstTime, deaths: Int32Array.from(deaths), events };
}

/** Last event time at or before each row's entry, −1 for none; found by halving, for late rows only. */
function entryTimes(
  { rows, entry, strata }: CheckedSurvival,
  time: Float64Array,
  firstTime: Int32Array,
  timeOfRow: Int32Array,
): Int32Array | null {
  if (entry === null) return null;
  const result = new Int32Array(rows).fill(-1);
  for (let row = 0; row < rows; row++) {
    if ((timeOfRow[row] as number) < 0) continue;
    const from = entry[row] as number;
    let low = firstTime[strata ? (strata.codes[row] as number) : 0] as number;
    if (from < (time[low] as number)) continue;
    let high = (timeOfRow[row] as number) + 1;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if ((time[middle] as number) <= from) low = middle;
      else high = middle;
    }
    result[row] = low;
  }
  return result;
}

type Placed = Pick<RiskSets, 'firstPosition' | 'row' | 'entryTime' | 'firstLate' | 'late'>;

/** Gives rows their positions: by last event time, events first; and lists the late ones by entry. */
function placeRows(
  { rows, event, weight }: CheckedSurvival,
  order: Uint32Array,
  timeOfRow: Int32Array,
  entries: Int32Array | null,
  times: number,
): Placed {
  const firstPosition = new Int32Array(times + 1);
  const firstLate = new Int32Array(times + 1);
  let count = 0;
  const row = new Uint32Array(rows);
  const held: number[] = [];
  let current = -1;
  const flush = () => {
    for (const waiting of held) row[count++] = waiting;
    held.length = 0;
  };
  for (let index = 0; index < rows; index++) {
    const candidate = order[index] as number;
    const time = timeOfRow[candidate] as number;
    if (time < 0 || (entries !== null && (entries[candidate] as number) >= time)) continue;
    if (weight !== null && weight[candidate] === 0) continue;
    if (time !== current) {
      flush();
      firstPosition[time] = count;
      current = time;
    }
    // A row censored at the time of an event, met before it, waits behind the event.
    if (event[candidate] === 1) row[count++] = candidate;
    else held.push(candidate);
  }
  flush();
  firstPosition[times] = count;
  const entryTime = new Int32Array(count).fill(-1);
  if (entries)
    for (let position = 0; position < count; position++)
      entryTime[position] = entries[row[position] as number] as number;
  return { firstPosition, row: row.slice(0, count), entryTime, firstLate, late: latePositions(entryTime, firstLate) };
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
