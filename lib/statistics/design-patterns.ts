import { fillDesignRow, type DesignMatrix, type DesignSource } from './design-matrix.ts';

/**
 * Rows that share every covariate, folded together. With a dozen yes/no covariates a million lives
 * have at most 4,096 different rows of the design: what depends on the covariates alone (the risk
 * score, squares and products) is then worked out 4,096 times, exactly, in place of a million.
 */
export interface DesignPatterns {
  readonly count: number;
  /** Pattern of each row. */
  readonly ofRow: Int32Array;
  /** A row that shows each pattern. */
  readonly example: Int32Array;
}

/** More than this many different values, and a numeric column is taken as continuous. */
const MOST_VALUES = 64;
/** Largest look-up table for folding codes. */
const MOST_CODES = 1 << 22;

/** Patterns of the design, or null when folding would not pay: a continuous column, or mostly singletons. */
export function designPatterns(design: DesignMatrix): DesignPatterns | null {
  const { rows } = design;
  const codes = new Int32Array(rows);
  let size = 1;
  let folded = 1;
  for (const source of design.sources) {
    const column = valueCodes(source, rows);
    if (column === null) return null;
    if (size * column.size > MOST_CODES) size = folded = fold(codes, size).length;
    if (size * column.size > MOST_CODES || folded > rows / 2) return null;
    for (let row = 0; row < rows; row++)
      codes[row] = (codes[row] as number) * column.size + (column.codes[row] as number);
    size *= column.size;
  }
  const example = fold(codes, size);
  return example.length > rows / 2 ? null : { count: example.length, ofRow: codes, example };
}

/** Renumbers codes below `size` in order of first appearance, in place; returns a row for each. */
function fold(codes: Int32Array, size: number): Int32Array {
  const renumbered = new Int32Array(size).fill(-1);
  const example: number[] = [];
  for (let row = 0; row < codes.length; row++) {
    const code = codes[row] as number;
    let next = renumbered[code] as number;
    if (next < 0) {
      renumbered[code] = next = example.length;
      example.push(row);
    }
    codes[row] = next;
  }
  return Int32Array.from(example);
}

function valueCodes(source: DesignSource, rows: number): { size: number; codes: ArrayLike<number> } | null {
  if ('codes' in source) return { size: source.levels.length, codes: source.codes };
  const { values } = source;
  const codes = new Uint8Array(rows);
  const seen: number[] = [];
  for (let row = 0; row < rows; row++) {
    const value = values[row] as number;
    let code = value === seen[0] ? 0 : value === seen[1] ? 1 : seen.indexOf(value);
    if (code < 0) {
      if (seen.length === MOST_VALUES) return null;
      code = seen.push(value) - 1;
    }
    codes[row] = code;
  }
  return { size: seen.length, codes };
}

/** The design rows of the patterns, row-major count × terms; `rows` picks rows instead when there are no patterns. */
export function designTable(design: DesignMatrix, rows: ArrayLike<number>): Float64Array {
  const width = design.terms.length;
  const table = new Float64Array(rows.length * width);
  for (let index = 0; index < rows.length; index++) fillDesignRow(design, rows[index] as number, table, index * width);
  return table;
}
