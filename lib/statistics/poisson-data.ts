import gammaln from '@stdlib/math-base-special-gammaln';
import { checkLives, toEvents } from './checked-lives.ts';
import { StatisticsError } from './statistics-error.ts';
import {
  gatherCodes,
  toCodes,
  toNumbers,
  type CategoryColumn,
  type Codes,
  type Covariates,
  type NumberColumn,
} from './survival-data.ts';

/** What else tells how many events a row is expected to have. */
export interface RateColumns {
  /** Known part of the log of the expected count, on top of the log of the exposure. */
  readonly offset?: NumberColumn;
  readonly covariates?: Covariates;
}

interface CountColumns extends RateColumns {
  readonly weight?: NumberColumn;
  readonly cluster?: CategoryColumn;
}

/** Events counted over an exposure, in whole numbers. */
export interface ExposedCounts extends CountColumns {
  readonly events: NumberColumn;
  readonly exposure?: NumberColumn;
}

/** Lives of constant hazard: each counts its event over exit − entry. Cut by `splitTime` the hazard may change with age. */
export interface ExponentialLives extends CountColumns {
  readonly exit: NumberColumn;
  readonly event: NumberColumn;
  readonly entry?: NumberColumn;
}

export type CountData = ExposedCounts | ExponentialLives;

/** Checked rows that say something: those of weight zero or without exposure are left out. */
export interface CountRows {
  readonly size: number;
  /** Rows of the caller's columns. */
  readonly length: number;
  /** Position of each row in the caller's columns; null when all are kept. */
  readonly source: Int32Array | null;
  readonly events: Float64Array;
  /** log exposure + offset − logUnit. */
  readonly offset: Float64Array;
  /** Set so that a predictor of zero expects as many events in all as were seen. */
  readonly logUnit: number;
  readonly weight: Float64Array | null;
  readonly totalWeight: number;
  readonly totalEvents: number;
  /** −Σ weight · log events! */
  readonly logFactorials: number;
  /** Their count is that of clusters with a row that says something. */
  readonly cluster: Codes | null;
}

/** @throws StatisticsError naming argument and row. */
export function toCountRows(data: CountData): CountRows {
  const { name, events, exposure } = 'exit' in data ? fromLives(data) : fromCounts(data);
  const length = events.length;
  if (length === 0) throw new StatisticsError(name, 'has no rows');
  const offset = logExposure(exposure, data.offset);
  const weight = data.weight ? toNumbers('weight', data.weight, length) : null;
  const cluster = data.cluster ? toCodes('cluster', data.cluster, length) : null;
  const kept: number[] = [];
  for (let row = 0; row < length; row++) {
    if (weight && (weight[row] as number) < 0)
      throw new StatisticsError('weight', `is ${weight[row]}, below zero`, row);
    if (offset[row] === -Infinity && (events[row] as number) > 0)
      throw new StatisticsError(name === 'exit' ? name : 'exposure', 'leaves no exposure to an event', row);
    if (offset[row] !== -Infinity && (!weight || (weight[row] as number) > 0)) kept.push(row);
  }
  if (kept.length === 0) throw new StatisticsError('exposure', 'is zero in every row that counts');
  return gather(events, offset, weight, cluster, kept);
}

function fromLives(data: ExponentialLives) {
  const { exit, entry } = checkLives(data);
  const events = Float64Array.from(toEvents(data.event, exit.length, 1));
  return { name: 'exit', events, exposure: entry ? exit.map((time, row) => time - (entry[row] as number)) : exit };
}

function fromCounts(data: ExposedCounts) {
  const events = toNumbers('events', data.events, data.events.length);
  events.forEach((count, row) => {
    if (!(count >= 0) || !Number.isInteger(count)) throw new StatisticsError('events', `${count} is not a count`, row);
  });
  return { name: 'events', events, exposure: toExposure(data.exposure, events.length) };
}

/** Exposures, checked; 1 each where not given. */
export function toExposure(exposure: NumberColumn | undefined, length: number): Float64Array {
  if (!exposure) return new Float64Array(length).fill(1);
  const checked = toNumbers('exposure', exposure, length);
  const row = checked.findIndex((value) => value < 0);
  if (row >= 0) throw new StatisticsError('exposure', `${checked[row]} is negative`, row);
  return checked;
}

/** −Infinity where there is no exposure. */
export function logExposure(exposure: Float64Array, offset: NumberColumn | undefined): Float64Array {
  const known = offset ? toNumbers('offset', offset, exposure.length) : null;
  return exposure.map((value, row) => Math.log(value) + (known ? (known[row] as number) : 0));
}

function gather(
  events: Float64Array,
  offset: Float64Array,
  weight: Float64Array | null,
  cluster: Codes | null,
  kept: readonly number[],
): CountRows {
  const all = kept.length === events.length;
  const take = (values: Float64Array) => (all ? values : Float64Array.from(kept, (row) => values[row] as number));
  const [counts, logs, weights] = [take(events), take(offset), weight && take(weight)];
  let [totalWeight, totalEvents, logFactorials, exposed] = [0, 0, 0, 0];
  const highest = logs.reduce((most, value) => Math.max(most, value), -Infinity);
  for (let row = 0; row < counts.length; row++) {
    const [w, y] = [weights ? (weights[row] as number) : 1, counts[row] as number];
    totalWeight += w;
    totalEvents += w * y;
    exposed += w * Math.exp((logs[row] as number) - highest);
    if (y > 1) logFactorials -= w * gammaln(y + 1);
  }
  if (totalEvents === 0) throw new StatisticsError('events', 'are none, so that no rate can be estimated');
  const logUnit = highest + Math.log(exposed) - Math.log(totalEvents);
  return {
    size: counts.length,
    length: events.length,
    source: all ? null : Int32Array.from(kept),
    events: counts,
    offset: logs.map((value) => value - logUnit),
    logUnit,
    weight: weights,
    totalWeight,
    totalEvents,
    logFactorials,
    cluster: cluster && gatherCodes(cluster, kept),
  };
}
