import { StatisticsError } from './statistics-error.ts';
import { toCategory, type Covariates, type NumberColumn } from './survival-data.ts';

/**
 * One covariate after checking. Few different values are kept as codes (of numbers into `values`,
 * of a category into `levels`, of which the first is the reference); many stay as they are.
 */
export type DesignSource =
  | { readonly name: string; readonly levels: readonly string[]; readonly codes: Int32Array }
  | { readonly name: string; readonly values: readonly number[]; readonly codes: Uint8Array }
  | { readonly name: string; readonly numbers: NumberColumn };

/**
 * The columns of a regression, kept as the covariates they came from: a category of sixty levels
 * over a million rows stays one column of codes until a row is asked for.
 */
export interface DesignMatrix {
  readonly rows: number;
  /** One label a column: the covariate's name, or `name=level` for a level of a category. */
  readonly terms: readonly string[];
  /** The covariate each column belongs to, an index into `sources`. */
  readonly sourceOf: Int32Array;
  /** The level a column stands for (index into the category's levels), −1 for a numeric column. */
  readonly levelOf: Int32Array;
  readonly sources: readonly DesignSource[];
}

/** More than this many different values, and a numeric column is taken as continuous. */
const MOST_VALUES = 64;

/**
 * Checks covariates and lists the columns they make. Categories get treatment contrasts: one
 * column for each level but the first.
 *
 * @throws StatisticsError naming `covariates.<name>` and the row for a bad length, number or code.
 */
export function designMatrix(covariates: Covariates, rows: number): DesignMatrix {
  const sources = Object.entries(covariates).map(([name, column]) => checkSource(name, column, rows));
  const terms: string[] = [];
  const sourceOf: number[] = [];
  const levelOf: number[] = [];
  sources.forEach((source, index) => {
    const levels = 'levels' in source ? source.levels.slice(1) : [null];
    levels.forEach((level, position) => {
      terms.push(level === null ? source.name : termOfLevel(source.name, level));
      sourceOf.push(index);
      levelOf.push(level === null ? -1 : position + 1);
    });
  });
  return { rows, terms, sourceOf: Int32Array.from(sourceOf), levelOf: Int32Array.from(levelOf), sources };
}

/** The label of the column that marks one level of a category. */
export const termOfLevel = (covariate: string, level: string): string => `${covariate}=${level}`;

function checkSource(name: string, column: Covariates[string], rows: number): DesignSource {
  const argument = `covariates.${name}`;
  if ('codes' in column) return { name, ...toCategory(argument, column, rows) };
  if (column.length !== rows) throw new StatisticsError(argument, `has ${column.length} rows where ${rows} are wanted`);
  const coded = codeValues(argument, column, rows);
  if (coded) return { name, ...coded };
  for (let row = 0; row < rows; row++)
    if (!Number.isFinite(column[row])) throw new StatisticsError(argument, 'is not a finite number', row);
  return { name, numbers: column };
}

/** Codes of a column with few different values; null when there are too many. */
function codeValues(argument: string, column: NumberColumn, rows: number) {
  const codes = new Uint8Array(rows);
  const values: number[] = [column[0] as number];
  const one = column[0];
  let other = NaN;
  for (let row = 0; row < rows; row++) {
    const value = column[row] as number;
    if (value === one) continue;
    if (value === other) {
      codes[row] = 1;
      continue;
    }
    if (!Number.isFinite(value)) throw new StatisticsError(argument, 'is not a finite number', row);
    let code = values.indexOf(value);
    if (code < 0) code = values.push(value) - 1;
    if (code === 1) other = value;
    if (code >= MOST_VALUES) return null;
    codes[row] = code;
  }
  if (!Number.isFinite(one)) throw new StatisticsError(argument, 'is not a finite number', 0);
  return { values, codes };
}

/** The design of some of its columns: the covariates of no other column are forgotten. */
export function someTerms(
  { rows, terms, sourceOf, levelOf, sources }: DesignMatrix,
  kept: readonly number[],
): DesignMatrix {
  const used = [...new Set(kept.map((column) => sourceOf[column] as number))];
  return {
    rows,
    terms: kept.map((column) => terms[column] as string),
    sourceOf: Int32Array.from(kept, (column) => used.indexOf(sourceOf[column] as number)),
    levelOf: Int32Array.from(kept, (column) => levelOf[column] as number),
    sources: used.map((source) => sources[source] as DesignSource),
  };
}

/** Rows laid out together while all columns pass: a tile of them stays in cache. */
const TILE = 256;

/** The design rows of `rows`, row-major rows × terms. */
export function designTable(design: DesignMatrix, rows: ArrayLike<number>): Float64Array {
  const width = design.terms.length;
  const table = new Float64Array(rows.length * width);
  // Rows from all over are fetched a column at a time: then it is the column that stays in cache.
  const tile = isAscending(rows) ? TILE : Math.max(1, rows.length);
  for (let first = 0; first < rows.length; first += tile) {
    const end = Math.min(rows.length, first + tile);
    for (let j = 0; j < width; j++) {
      const source = design.sources[design.sourceOf[j] as number] as DesignSource;
      fillColumn(table, width, j, source, design.levelOf[j] as number, rows, first, end);
    }
  }
  return table;
}

function isAscending(rows: ArrayLike<number>): boolean {
  for (let index = 1; index < rows.length; index++)
    if ((rows[index] as number) < (rows[index - 1] as number)) return false;
  return true;
}

function fillColumn(
  table: Float64Array,
  width: number,
  j: number,
  source: DesignSource,
  level: number,
  rows: ArrayLike<number>,
  first: number,
  end: number,
): void {
  let at = first * width + j;
  if ('numbers' in source)
    for (let index = first; index < end; index++, at += width)
      table[at] = source.numbers[rows[index] as number] as number;
  else if ('levels' in source)
    for (let index = first; index < end; index++, at += width)
      table[at] = source.codes[rows[index] as number] === level ? 1 : 0;
  else
    for (let index = first; index < end; index++, at += width)
      table[at] = source.values[source.codes[rows[index] as number] as number] as number;
}
