import { EXACT, INTERVAL, NOTHING, RIGHT, type LifeRows } from './life-rows.ts';
import { StatisticsError } from './statistics-error.ts';
import { gatherCodes, type Codes } from './survival-data.ts';

/** Checked columns of the caller's, with the kind of each row. */
export interface LifeColumns {
  readonly upper: Float64Array;
  readonly lower: Float64Array | null;
  readonly entry: Float64Array | null;
  readonly weight: Float64Array | null;
  readonly cluster: Codes | null;
  readonly kind: Uint8Array;
}

/** Keeps the rows that say something, as logs about their mean. */
export function gatherRows(columns: LifeColumns): LifeRows {
  const { upper, weight, kind } = columns;
  const source = keptRows(columns);
  const size = source ? source.length : upper.length;
  const kinds = source ? Uint8Array.from(source, (row) => kind[row] as number) : kind;
  const log = logEnds(columns, source, size);
  const weights = weight && pickRows(weight, source);
  const { exactWeight, failedWeight, totalWeight, observedTo, logJacobian } = weighSums(kinds, log, weights);
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
    cluster: columns.cluster && gatherCodes(columns.cluster, source),
    logUnit,
    // Written out: of a spread object the machine forgets the layout between fits, and what was compiled for it.
    exactWeight,
    failedWeight,
    totalWeight,
    observedTo,
    logJacobian,
  };
}

/** Rows that say something, or null when all do. @throws StatisticsError when none does. */
export function keptRows({ kind, weight }: Pick<LifeColumns, 'kind' | 'weight'>): Int32Array | null {
  const kept = new Int32Array(kind.length);
  let size = 0;
  for (let row = 0; row < kind.length; row++)
    if (kind[row] !== NOTHING && (weight === null || (weight[row] as number) > 0)) kept[size++] = row;
  if (size === 0) throw new StatisticsError(weight ? 'weight' : 'upper', 'no row carries information');
  return size === kind.length ? null : kept.subarray(0, size);
}

/** The values at the rows listed, all where null. */
export function pickRows(values: Float64Array, source: Int32Array | null): Float64Array {
  if (!source) return values;
  const picked = new Float64Array(source.length);
  for (let k = 0; k < source.length; k++) picked[k] = values[source[k] as number] as number;
  return picked;
}

function logEnds({ upper, lower, kind }: LifeColumns, source: Int32Array | null, size: number): Float64Array {
  const log = new Float64Array(size);
  for (let k = 0; k < size; k++) {
    const row = source ? (source[k] as number) : k;
    log[k] = Math.log((lower !== null && kind[row] === RIGHT ? lower[row] : upper[row]) as number);
  }
  return log;
}

/** Known to be running at `lower` and at `entry`: an interval starts at the later of the two. */
function logStarts(
  { lower, entry }: LifeColumns,
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
  const starts = entry && pickRows(entry, source);
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
