import type { CheckedSurvival } from './cox-data.ts';
import { riskSetsOf, type RiskSets } from './cox-risk-sets.ts';
import { sortOrder } from './numeric/sort-order.ts';
import { StatisticsError } from './statistics-error.ts';

export type TimeTransform = 'km' | 'rank' | 'identity' | 'log';

export interface TransformedTimes {
  /** g at each event time of the risk sets. */
  readonly transformed: Float64Array;
  /** g less its mean over events. */
  readonly centred: Float64Array;
}

/** A transform of time at the event times of `sets`, as R's cox.zph takes it: strata and weights play no part in it. */
export function eventTimeTransform(
  survival: CheckedSurvival,
  sets: RiskSets,
  transform: TimeTransform,
): TransformedTimes {
  const transformed = transformTimes(survival, sets, transform);
  let [sum, events] = [0, 0];
  transformed.forEach((value, time) => {
    sum += value * (sets.deaths[time] as number);
    events += sets.deaths[time] as number;
  });
  const most = transformed.reduce((largest, value) => Math.max(largest, Math.abs(value)), 0);
  const centred = transformed.map((value) => value - sum / events);
  // Of failures that all come at one time rounding is left, which must not pass for a spread.
  return {
    transformed,
    centred: centred.every((value) => Math.abs(value) <= 1e-12 * most) ? centred.fill(0) : centred,
  };
}

function transformTimes(survival: CheckedSurvival, { time }: RiskSets, transform: TimeTransform): Float64Array {
  if (transform === 'identity') return time.slice();
  if (transform === 'rank') return atTimes(time, midRanks(survival.exit));
  if (transform === 'km') return atTimes(time, failedBefore(survival));
  if (transform !== 'log')
    throw new StatisticsError('transform', `${String(transform)} is not km, rank, identity or log`);
  if (time.some((value) => value <= 0)) throw new StatisticsError('transform', 'log needs every event after time zero');
  return time.map(Math.log);
}

interface TimeTable {
  readonly time: Float64Array;
  readonly value: Float64Array;
}

/** Looks times up in a table that has them all. */
function atTimes(time: Float64Array, table: TimeTable): Float64Array {
  const place = new Map<number, number>();
  table.time.forEach((value, index) => place.set(value, index));
  return time.map((value) => table.value[place.get(value) as number] as number);
}

function midRanks(exit: Float64Array): TimeTable {
  const order = sortOrder(exit);
  const time: number[] = [];
  const value: number[] = [];
  for (let start = 0, end = 0; start < order.length; start = end) {
    const here = exit[order[start] as number] as number;
    while (end < order.length && exit[order[end] as number] === here) end++;
    time.push(here);
    value.push((start + 1 + end) / 2);
  }
  return { time: Float64Array.from(time), value: Float64Array.from(value) };
}

/** 1 − Kaplan–Meier just before each event time, all strata together, rows counted without weights. */
function failedBefore(survival: CheckedSurvival): TimeTable {
  const sets = riskSetsOf({ ...survival, weight: null, strata: null });
  const times = sets.time.length;
  const atRisk = new Float64Array(times);
  let running = 0;
  for (let time = times - 1; time >= 0; time--) {
    running += (sets.firstPosition[time + 1] as number) - (sets.firstPosition[time] as number);
    running -= (sets.firstLate[time + 1] as number) - (sets.firstLate[time] as number);
    atRisk[time] = running;
  }
  const value = new Float64Array(times);
  let surviving = 1;
  for (let time = 0; time < times; time++) {
    value[time] = 1 - surviving;
    surviving *= 1 - (sets.deaths[time] as number) / (atRisk[time] as number);
  }
  return { time: sets.time, value };
}
