import { gatherRows, type LifeColumns } from './gather-life-rows.ts';
import { EXACT, INTERVAL, LEFT, NOTHING, RIGHT, type LifeData, type LifeRows } from './life-rows.ts';
import { StatisticsError } from './statistics-error.ts';
import { toCodes, toNumbers, type NumberColumn } from './survival-data.ts';

/** Reads either form; throws a StatisticsError that names the argument and row at fault. */
export const toLifeRows = (data: LifeData): LifeRows => gatherRows(toLifeColumns(data));

/** The columns of either form, checked, with the kind of each row. */
export function toLifeColumns(data: LifeData): LifeColumns {
  const exits = 'exit' in data;
  const upper = exits ? toNumbers('exit', data.exit, data.exit.length) : toUpper(data.upper);
  const length = upper.length;
  if (length === 0) throw new StatisticsError(exits ? 'exit' : 'upper', 'has no rows');
  const lower = exits ? null : toNumbers('lower', data.lower, length);
  const event = exits ? toNumbers('event', data.event, length) : null;
  const entry = data.entry === undefined ? null : toNumbers('entry', data.entry, length);
  const weight = data.weight === undefined ? null : toNumbers('weight', data.weight, length);
  const cluster = data.cluster === undefined ? null : toCodes('cluster', data.cluster, length);
  const kind = classify(upper, lower, event, entry);
  if (weight) refuse('weight', weight, (value) => value < 0, 'is negative');
  return { upper, lower, entry, weight, cluster, kind };
}

function toUpper(column: NumberColumn): Float64Array {
  const upper = column instanceof Float64Array ? column : Float64Array.from(column);
  refuse('upper', upper, Number.isNaN, 'is not a number');
  return upper;
}

function refuse(argument: string, values: Float64Array, bad: (value: number) => boolean, message: string): void {
  for (let row = 0; row < values.length; row++)
    if (bad(values[row] as number)) throw new StatisticsError(argument, message, row);
}

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
