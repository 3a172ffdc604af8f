import { StatisticsError } from './statistics-error.ts';
import { toCategory, type Covariates, type NumberColumn } from './survival-data.ts';

/** One covariate after checking: numbers, or codes into levels of which the first is the reference. */
export type DesignSource =
  | { readonly name: string; readonly values: NumberColumn }
  | { readonly name: string; readonly levels: readonly string[]; readonly codes: Int32Array };

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
    const levels = 'codes' in source ? source.levels.slice(1) : [null];
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
  for (let row = 0; row < rows; row++)
    if (!Number.isFinite(column[row])) throw new StatisticsError(argument, 'is not a finite number', row);
  return { name, values: column };
}

/** Writes the design row of `row` into `out`, from `offset` on. */
export function fillDesignRow(design: DesignMatrix, row: number, out: Float64Array, offset: number): void {
  const { terms, sourceOf, levelOf, sources } = design;
  for (let j = 0; j < terms.length; j++) {
    const source = sources[sourceOf[j] as number] as DesignSource;
    out[offset + j] = 'codes' in source ? (source.codes[row] === levelOf[j] ? 1 : 0) : (source.values[row] as number);
  }
}
