import type { ListColumn } from '../../../shared/lives-pick.ts';
import type { CutCodes } from '../columns/cut-codes.ts';
import type { ListColumns, ListedCut } from './list-columns.ts';

const natural = new Intl.Collator('en', { numeric: true });

/** Place of each label in the order a reader expects: 9 before 10, what is not known after all. */
function ranks({ levels }: CutCodes): Float64Array {
  const order = levels.map((_, code) => code).sort((a, b) => natural.compare(levels[a] ?? '', levels[b] ?? ''));
  const rank = new Float64Array(levels.length);
  order.forEach((code, place) => (rank[code] = levels[code] === 'unknown' ? Number.NaN : place));
  return rank;
}

const numbers: Partial<Record<ListColumn, (columns: ListColumns) => ArrayLike<number>>> = {
  install_date: ({ life }) => life.installDay,
  install_miles: ({ installMiles }) => installMiles,
  exit_miles: ({ life }) => life.exit,
  exposure_miles: ({ life }) => life.exposure,
  state: ({ state }) => state,
};

/** What a life is ordered by: a number, or the rank of its label; NaN where it is not known. */
function keyOf(column: ListColumn, columns: ListColumns): (row: number) => number {
  const values = numbers[column]?.(columns);
  if (values !== undefined) return (row) => values[row] as number;
  const cut = columns.cuts[column as ListedCut];
  const rank = ranks(cut);
  return (row) => rank[cut.codes[row] as number] as number;
}

/** Rows by one column, what is not known last either way, equal ones in the order of the lives table. */
export function orderedRows(rows: Int32Array, column: ListColumn, down: boolean, columns: ListColumns): Int32Array {
  const key = keyOf(column, columns);
  const sign = down ? -1 : 1;
  const keys = new Float64Array(columns.life.rows);
  for (const row of rows) {
    const value = key(row);
    keys[row] = Number.isNaN(value) ? Infinity : sign * value;
  }
  return rows.slice().sort((a, b) => (keys[a] as number) - (keys[b] as number) || a - b);
}
