import { StatisticsError } from './statistics-error.ts';

/** A column of numbers; typed arrays are fastest, plain arrays are accepted. Never mutated. */
export type NumberColumn = ArrayLike<number>;

/**
 * A categorical column: codes into `levels` (first level = reference), or raw values whose
 * levels are taken in order of first appearance for text and ascending order for numbers.
 */
export type CategoryColumn =
  { readonly levels: readonly string[]; readonly codes: ArrayLike<number> } | ArrayLike<number> | readonly string[];

/** Covariates by name: numeric columns, or categorical ones (first level is the reference). */
export type Covariates = Readonly<
  Record<string, NumberColumn | { readonly levels: readonly string[]; readonly codes: ArrayLike<number> }>
>;

/**
 * The one calling convention of the survival functions. All columns have the same length.
 * A subject is at risk on (entry, exit]; `event` is 0 (censored) or 1, or a cause code ≥ 1
 * for competing risks.
 */
export interface SurvivalData {
  readonly exit: NumberColumn;
  readonly event: NumberColumn;
  readonly entry?: NumberColumn;
  readonly weight?: NumberColumn;
  readonly group?: CategoryColumn;
  readonly cluster?: CategoryColumn;
  readonly strata?: CategoryColumn;
  readonly covariates?: Covariates;
}

/** A categorical column after checking: every code indexes `levels`. */
export interface Category {
  readonly levels: readonly string[];
  readonly codes: Int32Array;
}

/** Codes of a categorical column without their labels: all that clusters need. */
export interface Codes {
  readonly count: number;
  readonly codes: Int32Array;
}

/** Codes and level labels of a categorical column of `length` rows; throws on a bad length or code. */
export function toCategory(argument: string, column: CategoryColumn, length: number): Category {
  if ('codes' in column) return { levels: column.levels, codes: checkedCodes(argument, column, length) };
  const { values, codes } = distinctValues(argument, column, length);
  if (!values.every((value) => typeof value === 'number')) return { levels: values.map(String), codes };
  const order = values.map((_, code) => code).sort((a, b) => (values[a] as number) - (values[b] as number));
  const rank = new Int32Array(values.length);
  order.forEach((code, position) => (rank[code] = position));
  return { levels: order.map((code) => String(values[code])), codes: codes.map((code) => rank[code] as number) };
}

/** As {@link toCategory}, but the codes are in no particular order and nothing is spent on labels. */
export function toCodes(argument: string, column: CategoryColumn, length: number): Codes {
  if ('codes' in column) return { count: column.levels.length, codes: checkedCodes(argument, column, length) };
  const { values, codes } = distinctValues(argument, column, length);
  return { count: values.length, codes };
}

/** How many of the clusters have a row: a category may list more. */
export function clustersUsed({ count, codes }: Codes): number {
  const used = new Uint8Array(count);
  for (let row = 0; row < codes.length; row++) used[codes[row] as number] = 1;
  return used.reduce((sum, one) => sum + one, 0);
}

/** Codes of the rows listed (null for all), renumbered so that the count is of codes that have one. */
export function gatherCodes({ count, codes }: Codes, rows: ArrayLike<number> | null): Codes {
  const renumbered = new Int32Array(count).fill(-1);
  const gathered = new Int32Array(rows ? rows.length : codes.length);
  let next = 0;
  for (let k = 0; k < gathered.length; k++) {
    const code = codes[rows ? (rows[k] as number) : k] as number;
    if ((renumbered[code] as number) < 0) renumbered[code] = next++;
    gathered[k] = renumbered[code] as number;
  }
  return { count: next, codes: gathered };
}

function checkedCodes(
  argument: string,
  { levels, codes: given }: { readonly levels: readonly string[]; readonly codes: ArrayLike<number> },
  length: number,
): Int32Array {
  checkLength(argument, given, length);
  const codes = given instanceof Int32Array ? given : new Int32Array(length);
  for (let row = 0; row < length; row++) {
    const code = given[row] as number;
    if (!Number.isInteger(code) || code < 0 || code >= levels.length)
      throw new StatisticsError(argument, `code ${code} is not one of 0 to ${levels.length - 1}`, row);
    if (codes !== given) codes[row] = code;
  }
  return codes;
}

function distinctValues(
  argument: string,
  column: ArrayLike<number> | readonly string[],
  length: number,
): { values: (number | string)[]; codes: Int32Array } {
  checkLength(argument, column, length);
  const dense = denseValues(column);
  if (dense) return dense;
  const seen = new Map<number | string, number>();
  const codes = new Int32Array(length);
  for (let row = 0; row < length; row++) {
    const value = column[row] as number | string;
    if (value === undefined || value === null || (typeof value === 'number' && Number.isNaN(value)))
      throw new StatisticsError(argument, 'is missing', row);
    let code = seen.get(value);
    if (code === undefined) seen.set(value, (code = seen.size));
    codes[row] = code;
  }
  return { values: [...seen.keys()], codes };
}

/** Numbers up to this times the rows are looked up in a table, which is many times quicker than in a map. */
const DENSE = 4;

/** As `distinctValues`, for whole numbers from 0 on that leave few gaps; null for all else. */
function denseValues(column: ArrayLike<number> | readonly string[]): { values: number[]; codes: Int32Array } | null {
  let most = 0;
  for (let row = 0; row < column.length; row++) {
    const value = column[row] as number | string;
    if (typeof value !== 'number' || !(value >= 0 && value <= DENSE * column.length) || value !== Math.floor(value))
      return null;
    if (value > most) most = value;
  }
  const codeOf = new Int32Array(most + 1).fill(-1);
  const values: number[] = [];
  const codes = new Int32Array(column.length);
  for (let row = 0; row < codes.length; row++) {
    const value = column[row] as number;
    if ((codeOf[value] as number) < 0) codeOf[value] = values.push(value) - 1;
    codes[row] = codeOf[value] as number;
  }
  return { values, codes };
}

function checkLength(argument: string, column: ArrayLike<unknown>, length: number): void {
  if (column.length !== length)
    throw new StatisticsError(argument, `has ${column.length} rows where exit has ${length}`);
}

/** A finite, checked copy-free view as Float64Array (copied only when it is not one already). */
export function toNumbers(argument: string, column: NumberColumn, length: number): Float64Array {
  if (column.length !== length)
    throw new StatisticsError(argument, `has ${column.length} rows where ${length} are wanted`);
  const values = column instanceof Float64Array ? column : new Float64Array(column);
  for (let row = 0; row < length; row++)
    if (!Number.isFinite(values[row])) throw new StatisticsError(argument, 'is not a finite number', row);
  return values;
}
