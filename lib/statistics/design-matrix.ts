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

/** The design rows of `rows`, row-major rows × terms. */
export function designTable(
  { terms, sourceOf, levelOf, sources }: DesignMatrix,
  rows: ArrayLike<number>,
): Float64Array {
  const width = terms.length;
  const table = new Float64Array(rows.length * width);
  for (let j = 0; j < width; j++) {
    const source = sources[sourceOf[j] as number] as DesignSource;
    for (let index = 0, at = j; index < rows.length; index++, at += width) {
      const row = rows[index] as number;
      if ('numbers' in source) table[at] = source.numbers[row] as number;
      else if ('levels' in source) table[at] = source.codes[row] === levelOf[j] ? 1 : 0;
      else table[at] = source.values[source.codes[row] as number] as number;
    }
  }
  return table;
}
