import type { CutCodes } from '../columns/cut-codes.ts';
import { mostGroups } from '../group-keys.ts';
import { placeOfValue } from '../group-order.ts';

/** The groups compared, those with most lives first and not known last; codes are one a life. */
export interface ComparedGroups {
  readonly levels: readonly string[];
  readonly codes: Int32Array;
  /** Of the smallest groups that stand together beyond the most a table holds. */
  readonly together: number;
}

/** Under this label stand the smallest groups together. */
export const restLabel = 'smallest together';

/** Groups of the lives at `rows` by the labels of a column. */
export function comparedGroups(column: string, { levels, codes }: CutCodes, rows: Int32Array): ComparedGroups {
  const lives = new Float64Array(levels.length);
  for (const row of rows) lives[codes[row] as number] = (lives[codes[row] as number] as number) + 1;
  const found = levels
    .map((label, code) => ({ label, code, lives: lives[code] as number }))
    .filter((one) => one.lives > 0)
    .sort((a, b) => rank(column, a.label) - rank(column, b.label) || b.lives - a.lives || (a.label < b.label ? -1 : 1));
  const known = found.filter(({ label }) => label !== 'unknown');
  const shown = known.slice(0, mostGroups);
  const rest = known.length > shown.length ? [restLabel] : [];
  const names = [...shown.map(({ label }) => label), ...rest, ...(known.length < found.length ? ['unknown'] : [])];
  const placeOf = new Int32Array(levels.length).fill(names.indexOf(restLabel));
  for (const { label, code } of found) if (names.includes(label)) placeOf[code] = names.indexOf(label);
  const own = new Int32Array(rows.length);
  for (let at = 0; at < rows.length; at++) own[at] = placeOf[codes[rows[at] as number] as number] as number;
  return { levels: names, codes: own, together: known.length - shown.length };
}

const rank = (column: string, label: string): number => (label === 'unknown' ? 1e9 : placeOfValue(column, label));

/** Groups that are one shop each: the rest and those not known are shown and not compared. */
export const isOneGroup = (label: string): boolean => label !== 'unknown' && label !== restLabel;
