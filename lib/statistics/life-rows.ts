import { StatisticsError } from './statistics-error.ts';
import { toCategory, toNumbers, type Category, type CategoryColumn, type NumberColumn } from './survival-data.ts';

/** Lives as exits with an event flag (1 failed, 0 still running). */
export interface ExitData {
  readonly exit: NumberColumn;
  readonly event: NumberColumn;
  readonly entry?: NumberColumn;
  readonly weight?: NumberColumn;
  readonly cluster?: CategoryColumn;
}

/**
 * Lives known to have ended in (lower, upper]: lower = upper is an exact life, upper = Infinity a
 * unit still running, lower = 0 one found failed at its first inspection.
 */
export interface IntervalData {
  readonly lower: NumberColumn;
  readonly upper: NumberColumn;
  readonly entry?: NumberColumn;
  readonly weight?: NumberColumn;
  readonly cluster?: CategoryColumn;
}

export type LifeData = ExitData | IntervalData;

export const EXACT = 0;
export const RIGHT = 1;
export const LEFT = 2;
export const INTERVAL = 3;

/** What the likelihoods read: one row per life that carries information, times as logs less `logUnit`. */
export interface LifeRows {
  readonly size: number;
  /** EXACT, RIGHT, LEFT or INTERVAL, by row. */
  readonly kind: Uint8Array;
  /** log of the exact life, of the censoring time, or of the upper end of the interval. */
  readonly log: Float64Array;
  /** log of the lower end where kind is INTERVAL; null when no row is. */
  readonly logLower: Float64Array | null;
  /** log of the entry time, −Infinity for none; null when no row enters late. */
  readonly logEntry: Float64Array | null;
  readonly weight: Float64Array | null;
  /** Position of each row in the caller's columns; null when all are kept in order. */
  readonly source: Int32Array | null;
  readonly cluster: Category | null;
  readonly logUnit: number;
  /** Σ weight of exact lives, and of all that failed (exact, left and interval). */
  readonly exactWeight: number;
  readonly failedWeight: number;
  readonly totalWeight: number;
  /** −Σ weight · log t over exact lives, with t in the caller's unit: from log-time density to time density. */
  readonly logJacobian: number;
}

/** Reads either form; throws a StatisticsError that names the argument and row at fault. */
export function toLifeRows(data: LifeData): LifeRows {
  const exits = 'exit' in data;
  const upper = exits ? toNumbers('exit', data.exit, data.exit.length) : toUpper(data.upper);
  const length = upper.length;
  if (length === 0) throw new StatisticsError(exits ? 'exit' : 'upper', 'has no rows');
  const lower = exits ? null : toNumbers('lower', data.lower, length);
  const event = exits ? toNumbers('event', data.event, length) : null;
  const entry = data.entry === undefined ? null : toNumbers('entry', data.entry, length);
  const weight = data.weight === undefined ? null : toNumbers('weight', data.weight, length);
  const cluster = data.cluster === undefined ? null : toCategory('cluster', data.cluster, length);
  const kind = classify(upper, lower, event, entry);
  if (weight) refuse('weight', weight, (value) => value < 0, 'is negative');
  return gather({ upper, lower, entry, weight, cluster, kind });
}

function toUpper(column: NumberColumn): Float64Array {
  const upper = column instanceof Float64Array ? column : Float64Array.from(column);
  refuse('upper', upper, Number.isNaN, 'is not a number');
  return upper;
}

function refuse(argument: string, values: Float64Array, bad: (value: number) => boolean, message: string): void {
  const row = values.findIndex(bad);
  if (row >= 0) throw new StatisticsError(argument, message, row);
}

/** Nothing is known of a life with lower 0 (or its entry) and upper Infinity. */
const NOTHING = 255;

function classify(
  upper: Float64Array,
  lower: Float64Array | null,
  event: Float64Array | null,
  entry: Float64Array | null,
): Uint8Array {
  const last = event ? 'exit' : 'upper';
  const kind = new Uint8Array(upper.length);
  for (let row = 0; row < upper.length; row++) {
    const end = upper[row] as number;
    const start = entry ? (entry[row] as number) : 0;
    if (start < 0) throw new StatisticsError('entry', 'is negative', row);
    if (!(end > start))
      throw new StatisticsError(last, `${end} is not after ${entry ? `entry ${start}` : 'zero'}`, row);
    if (event) {
      const flag = event[row] as number;
      if (flag !== 0 && flag !== 1) throw new StatisticsError('event', `${flag} is neither 0 nor 1`, row);
      kind[row] = flag === 1 ? EXACT : RIGHT;
      continue;
    }
    const from = (lower as Float64Array)[row] as number;
    if (from < 0) throw new StatisticsError('lower', 'is negative', row);
    if (from > end) throw new StatisticsError('lower', `${from} is above upper ${end}`, row);
    if (from === end) kind[row] = EXACT;
    else if (end === Infinity) kind[row] = from > start ? RIGHT : NOTHING;
    else kind[row] = Math.max(from, start) > 0 ? INTERVAL : LEFT;
  }
  return kind;
}

interface Columns {
  readonly upper: Float64Array;
  readonly lower: Float64Array | null;
  readonly entry: Float64Array | null;
  readonly weight: Float64Array | null;
  readonly cluster: Category | null;
  readonly kind: Uint8Array;
}

function gather({ upper, lower, entry, weight, cluster, kind }: Columns): LifeRows {
  const length = upper.length;
  const keeps = (row: number) => kind[row] !== NOTHING && (weight === null || (weight[row] as number) > 0);
  let size = 0;
  for (let row = 0; row < length; row++) if (keeps(row)) size++;
  if (size === 0) throw new StatisticsError(weight ? 'weight' : 'upper', 'no row carries information');
  const source = size === length ? null : new Int32Array(size);
  if (source) for (let row = 0, to = 0; row < length; row++) if (keeps(row)) source[to++] = row;
  const take = (read: (row: number) => number) => {
    const values = new Float64Array(size);
    for (let k = 0; k < size; k++) values[k] = read(source ? (source[k] as number) : k);
    return values;
  };
  const kinds = source ? Uint8Array.from(source, (row) => kind[row] as number) : kind;
  const log = take((row) => Math.log((kind[row] === RIGHT && lower ? lower[row] : upper[row]) as number));
  let logUnit = 0;
  for (let k = 0; k < size; k++) logUnit += (log[k] as number) / size;
  const lateEntry = entry !== null && entry.some((value) => value > 0);
  const start = (row: number) => Math.max((lower as Float64Array)[row] as number, entry ? (entry[row] as number) : 0);
  const logLower = kinds.includes(INTERVAL)
    ? take((row) => (kind[row] === INTERVAL ? Math.log(start(row)) - logUnit : 0))
    : null;
  const logEntry = lateEntry ? take((row) => Math.log((entry as Float64Array)[row] as number) - logUnit) : null;
  const weights = weight ? take((row) => weight[row] as number) : null;
  const clusters = cluster && {
    levels: cluster.levels,
    codes: source ? Int32Array.from(source, (row) => cluster.codes[row] as number) : cluster.codes,
  };
  const sums = weighSums(kinds, log, weights);
  for (let k = 0; k < size; k++) log[k] = (log[k] as number) - logUnit;
  return { size, kind: kinds, log, logLower, logEntry, weight: weights, source, cluster: clusters, logUnit, ...sums };
}

function weighSums(kind: Uint8Array, log: Float64Array, weight: Float64Array | null) {
  let [exactWeight, failedWeight, totalWeight, logJacobian] = [0, 0, 0, 0];
  for (let k = 0; k < kind.length; k++) {
    const w = weight ? (weight[k] as number) : 1;
    totalWeight += w;
    if (kind[k] !== RIGHT) failedWeight += w;
    if (kind[k] !== EXACT) continue;
    exactWeight += w;
    logJacobian -= w * (log[k] as number);
  }
  return { exactWeight, failedWeight, totalWeight, logJacobian };
}

/**
 * Refuses lives that no maximum exists for. With z = α log t − γ the likelihood climbs for ever
 * where one time fits every row at once (α → ∞), or where all found failed were inspected before
 * all found running (α → −∞): the location-scale form of complete separation.
 */
export function requireMaximum(rows: LifeRows, shapeIsFree: boolean): void {
  if (rows.failedWeight === 0) throw new StatisticsError('event', 'no failures: only a bound on the rate can be had');
  const { kind, log, logLower } = rows;
  let [exactFrom, exactTo, running, running0] = [Infinity, -Infinity, -Infinity, Infinity];
  let [found, found0, lower, intervals] = [Infinity, -Infinity, -Infinity, 0];
  for (let k = 0; k < rows.size; k++) {
    const at = log[k] as number;
    if (kind[k] === EXACT) [exactFrom, exactTo] = [Math.min(exactFrom, at), Math.max(exactTo, at)];
    else if (kind[k] === RIGHT) [running, running0] = [Math.max(running, at), Math.min(running0, at)];
    else [found, found0] = [Math.min(found, at), Math.max(found0, at)];
    if (kind[k] !== INTERVAL) continue;
    intervals++;
    lower = Math.max(lower, (logLower as Float64Array)[k] as number);
  }
  const exact = exactTo > -Infinity;
  if (!exact && intervals === 0 && running === -Infinity)
    throw new StatisticsError('upper', 'every unit was found failed at its first inspection: life has no lower bound');
  if (!shapeIsFree) return;
  const oneTime =
    Math.max(running, lower, exact ? exactTo : -Infinity) <= Math.min(found, exact ? exactFrom : Infinity);
  if (oneTime)
    throw new StatisticsError(
      exact ? 'event' : 'upper',
      'one and the same life fits every row: the shape has no upper bound',
    );
  if (!exact && intervals === 0 && found0 <= running0)
    throw new StatisticsError(
      'upper',
      'all found failed were inspected before all found running: no shape above zero fits',
    );
}
