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
  /** Latest age at which anything was seen, in the caller's unit. */
  readonly observedTo: number;
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

function gather(columns: Columns): LifeRows {
  const { upper, weight, kind } = columns;
  const source = keptRows(kind, weight);
  const size = source ? source.length : upper.length;
  if (size === 0) throw new StatisticsError(weight ? 'weight' : 'upper', 'no row carries information');
  const kinds = source ? Uint8Array.from(source, (row) => kind[row] as number) : kind;
  const log = logEnds(columns, source, size);
  const weights = weight && pick(weight, source);
  const sums = weighSums(kinds, log, weights);
  let logUnit = 0;
  for (let k = 0; k < size; k++) logUnit += log[k] as number;
  logUnit /= size;
  for (let k = 0; k < size; k++) log[k] = (log[k] as number) - logUnit;
  return {
    size,
    kind: kinds,
    log,
    logLower: kinds.includes(INTERVAL) ? logStarts(columns, source, kinds, logUnit) : null,
    logEntry: logEntries(columns.entry, source, logUnit),
    weight: weights,
    source,
    cluster: columns.cluster && { ...columns.cluster, codes: pick(columns.cluster.codes, source) },
    logUnit,
    ...sums,
  };
}

/** Rows that say something, or null when all do. */
function keptRows(kind: Uint8Array, weight: Float64Array | null): Int32Array | null {
  const kept = new Int32Array(kind.length);
  let size = 0;
  for (let row = 0; row < kind.length; row++)
    if (kind[row] !== NOTHING && (weight === null || (weight[row] as number) > 0)) kept[size++] = row;
  return size === kind.length ? null : kept.slice(0, size);
}

function pick<T extends Float64Array | Int32Array>(values: T, source: Int32Array | null): T {
  if (!source) return values;
  const picked = new (values.constructor as new (length: number) => T)(source.length);
  for (let k = 0; k < source.length; k++) picked[k] = values[source[k] as number] as number;
  return picked;
}

function logEnds({ upper, lower, kind }: Columns, source: Int32Array | null, size: number): Float64Array {
  const log = new Float64Array(size);
  for (let k = 0; k < size; k++) {
    const row = source ? (source[k] as number) : k;
    log[k] = Math.log((lower !== null && kind[row] === RIGHT ? lower[row] : upper[row]) as number);
  }
  return log;
}

/** Known to be running at `lower` and at `entry`: an interval starts at the later of the two. */
function logStarts(
  { lower, entry }: Columns,
  source: Int32Array | null,
  kinds: Uint8Array,
  logUnit: number,
): Float64Array {
  const log = new Float64Array(kinds.length);
  for (let k = 0; k < kinds.length; k++) {
    if (kinds[k] !== INTERVAL) continue;
    const row = source ? (source[k] as number) : k;
    log[k] = Math.log(Math.max(lower?.[row] as number, entry ? (entry[row] as number) : 0)) - logUnit;
  }
  return log;
}

function logEntries(entry: Float64Array | null, source: Int32Array | null, logUnit: number): Float64Array | null {
  const starts = entry && pick(entry, source);
  let late = false;
  for (let k = 0; starts && k < starts.length && !late; k++) late = (starts[k] as number) > 0;
  if (!starts || !late) return null;
  const log = new Float64Array(starts.length);
  for (let k = 0; k < starts.length; k++)
    log[k] = starts[k] === 0 ? -Infinity : Math.log(starts[k] as number) - logUnit;
  return log;
}

function weighSums(kind: Uint8Array, log: Float64Array, weight: Float64Array | null) {
  let exactWeight = 0;
  let failedWeight = 0;
  let totalWeight = 0;
  let logJacobian = 0;
  let latest = -Infinity;
  for (let k = 0; k < kind.length; k++) {
    const w = weight ? (weight[k] as number) : 1;
    totalWeight += w;
    if ((log[k] as number) > latest) latest = log[k] as number;
    if (kind[k] !== RIGHT) failedWeight += w;
    if (kind[k] !== EXACT) continue;
    exactWeight += w;
    logJacobian -= w * (log[k] as number);
  }
  return { exactWeight, failedWeight, totalWeight, logJacobian, observedTo: Math.exp(latest) };
}

/**
 * Refuses lives that no maximum exists for. With z = α log t − γ the likelihood climbs for ever
 * where one time fits every row at once (α → ∞), or where all found failed were inspected before
 * all found running (α → −∞): the location-scale form of complete separation.
 */
export function requireMaximum(rows: LifeRows, shapeIsFree: boolean): void {
  if (rows.failedWeight === 0) throw new StatisticsError('event', 'no failures: only a bound on the rate can be had');
  const ends = rangesByKind(rows);
  const exact = ends.exactTo > -Infinity;
  const intervals = ends.intervalFrom > -Infinity;
  if (!exact && !ends.seenRunning && ends.runningTo === -Infinity)
    throw new StatisticsError('upper', 'every unit was found failed at its first inspection: life has no lower bound');
  if (!shapeIsFree) return;
  if (Math.max(ends.runningTo, ends.intervalFrom, ends.exactTo) <= Math.min(ends.foundFrom, ends.exactFrom))
    throw new StatisticsError(
      exact ? 'event' : 'upper',
      'one and the same life fits every row: the shape has no upper bound',
    );
  if (!exact && !intervals && ends.foundTo <= ends.runningFrom)
    throw new StatisticsError(
      'upper',
      'all found failed were inspected before all found running: no shape above zero fits',
    );
}

/** Earliest and latest exact life, time still running, time found failed; latest start of an interval, and whether any was seen running between its entry and its end. */
function rangesByKind({ kind, log, logLower, logEntry, size }: LifeRows) {
  const ends = { exactFrom: Infinity, exactTo: -Infinity, runningFrom: Infinity, runningTo: -Infinity };
  const found = { foundFrom: Infinity, foundTo: -Infinity, intervalFrom: -Infinity, seenRunning: false };
  for (let k = 0; k < size; k++) {
    const at = log[k] as number;
    if (kind[k] === EXACT) {
      if (at < ends.exactFrom) ends.exactFrom = at;
      if (at > ends.exactTo) ends.exactTo = at;
    } else if (kind[k] === RIGHT) {
      if (at < ends.runningFrom) ends.runningFrom = at;
      if (at > ends.runningTo) ends.runningTo = at;
    } else {
      if (at < found.foundFrom) found.foundFrom = at;
      if (at > found.foundTo) found.foundTo = at;
      if (kind[k] !== INTERVAL) continue;
      const start = logLower?.[k] as number;
      if (start > found.intervalFrom) found.intervalFrom = start;
      if (logEntry === null || start > (logEntry[k] as number)) found.seenRunning = true;
    }
  }
  return { ...ends, ...found };
}
