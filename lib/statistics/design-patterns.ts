import type { DesignMatrix } from './design-matrix.ts';

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

/** Largest look-up table for folding codes. */
const MOST_CODES = 1 << 22;

/** Patterns of the design, or null when folding would not pay: a continuous column, or mostly singletons. */
export function designPatterns({ rows, sources }: DesignMatrix): DesignPatterns | null {
  const codes = new Int32Array(rows);
  let size = 1;
  for (const source of sources) {
    if ('numbers' in source) return null;
    const values = 'levels' in source ? source.levels.length : source.values.length;
    if (size * values > MOST_CODES) size = fold(codes, size).length;
    if (size * values > MOST_CODES || (size > rows / 2 && size > 1)) return null;
    const column = source.codes;
    for (let row = 0; row < rows; row++) codes[row] = (codes[row] as number) * values + (column[row] as number);
    size *= values;
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
