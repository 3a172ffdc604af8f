import { checkSpans } from './check-spans.ts';
import { StatisticsError } from './statistics-error.ts';
import { toCategory, toCodes, toNumbers, type Category, type Codes, type SurvivalData } from './survival-data.ts';

/** The columns that describe when lives were watched, checked once for all the non-parametric methods. */
export interface CheckedLives {
  readonly rows: number;
  readonly exit: Float64Array;
  /** Null when nobody entered late: everyone is then at risk from the start, an exit at 0 included. */
  readonly entry: Float64Array | null;
  /** Null when every row counts once. */
  readonly weight: Float64Array | null;
  /** One level, `all`, when no group was given. */
  readonly group: Category;
  readonly cluster: Codes | null;
}

/**
 * Checks exit, entry, weight, group and cluster. Nothing is copied that is already a typed array of
 * the right kind.
 *
 * @throws StatisticsError naming the argument and row: not a finite number, exit ≤ entry, a negative
 * exit, a negative weight, a column of another length, a code without a level.
 */
export function checkLives(data: SurvivalData): CheckedLives {
  const rows = data.exit.length;
  const exit = toNumbers('exit', data.exit, rows);
  const entry = data.entry ? toNumbers('entry', data.entry, rows) : null;
  const weight = data.weight ? toNumbers('weight', data.weight, rows) : null;
  checkSpans(exit, entry, weight);
  return { rows, exit, entry, weight, group: toGroup(data, rows), cluster: toCluster(data, rows) };
}

function toGroup({ group }: SurvivalData, rows: number): Category {
  return group ? toCategory('group', group, rows) : { levels: ['all'], codes: new Int32Array(rows) };
}

function toCluster({ cluster }: SurvivalData, rows: number): Codes | null {
  return cluster ? toCodes('cluster', cluster, rows) : null;
}

/** Event codes, 0 to `most`: 0 is censored. */
export function toEvents(event: SurvivalData['event'], rows: number, most: number): Uint8Array {
  if (event.length !== rows) throw new StatisticsError('event', `has ${event.length} rows where exit has ${rows}`);
  const codes = new Uint8Array(rows);
  for (let row = 0; row < rows; row++) {
    const code = event[row] as number;
    codes[row] = code;
    // A byte holds whole numbers from 0 to 255 and nothing else.
    if (codes[row] !== code || code > most)
      throw new StatisticsError(
        'event',
        `is ${code}, not ${most === 1 ? '0 or 1' : `a whole number from 0 to ${most}`}`,
        row,
      );
  }
  return codes;
}

/** Every row its own cluster: the robust variance of independent rows. */
export function eachRowACluster(rows: number): Codes {
  return { count: rows, codes: Int32Array.from({ length: rows }, (_, row) => row) };
}
