import { PairPlaces } from '../pair-places.ts';

interface Levels {
  readonly levels: readonly string[];
  readonly codes: Int32Array;
}

/** Columns taken together: one code for every combination of values that occurs. */
export function cellsOf(columns: readonly Levels[], rows: number): Levels {
  let codes: Int32Array = new Int32Array(rows);
  let levels: readonly string[] = ['all'];
  for (const [index, column] of columns.entries()) {
    const places = new PairPlaces(levels.length, column.levels.length);
    const names: string[] = [];
    const before = codes;
    codes = new Int32Array(rows);
    for (let at = 0; at < rows; at++) {
      const [one, other] = [before[at] as number, column.codes[at] as number];
      const place = places.place(one, other);
      if (place === names.length)
        names.push(index === 0 ? (column.levels[other] as string) : `${levels[one]} · ${column.levels[other]}`);
      codes[at] = place;
    }
    levels = names;
  }
  return { levels, codes };
}
