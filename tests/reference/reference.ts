import { appendFileSync, readFileSync } from 'node:fs';
import { expect } from 'vitest';

const here = new URL('.', import.meta.url);

export interface ReferenceCase {
  readonly id: string;
  readonly source: string;
  readonly settings: Record<string, unknown>;
  // The expected part differs by family; each test narrows what it reads.

  readonly expected: any;
}

/** One published case with results from independent software (see PACK.md for conventions). */
export function loadCase(id: string): ReferenceCase {
  const text = readFileSync(new URL(`expected/${id}.json`, here), 'utf8');
  note({ replayed: id });
  return JSON.parse(text, (_key, value: unknown) =>
    value === 'Inf' ? Infinity : value === '-Inf' ? -Infinity : value,
  ) as ReferenceCase;
}

/** A data set of the pack: numeric columns as Float64Array (blank = NaN), others as text. */
export function loadData(name: string): Record<string, Float64Array | string[]> {
  const lines = readFileSync(new URL(`datasets/${name}.csv`, here), 'utf8')
    .trim()
    .split(/\r?\n/);
  const split = (line: string) => line.split(',').map((cell) => cell.replace(/^"|"$/g, ''));
  const header = split(lines[0] as string);
  const rows = lines.slice(1).map(split);
  return Object.fromEntries(
    header.map((column, index) => {
      const cells = rows.map((row) => row[index] as string);
      const numeric = cells.every((cell) => cell === '' || cell === 'NA' || Number.isFinite(Number(cell)));
      const toNumber = (cell: string) => (cell === '' || cell === 'NA' ? NaN : Number(cell));
      return [column, numeric ? Float64Array.from(cells.map(toNumber)) : cells];
    }),
  );
}

export const numbers = (data: Record<string, Float64Array | string[]>, column: string): Float64Array => {
  const values = data[column];
  if (!(values instanceof Float64Array)) throw new Error(`no numeric column ${column}`);
  return values;
};

/** Relative error, absolute below 1e-8 in size so that a true zero can be matched. */
export const relativeError = (actual: number, expected: number): number =>
  Object.is(actual, expected) || actual === expected
    ? 0
    : Math.abs(actual - expected) / Math.max(Math.abs(expected), 1e-8);

/**
 * Checks one number, or arrays of the same length, against a reference within a relative
 * tolerance and, when the table is being regenerated, notes the worst error. `null`
 * expected values (not defined in the reference) are passed over.
 */
export function check(
  about: { readonly method: string; readonly source: string },
  actual: number | ArrayLike<number>,
  expected: number | null | ArrayLike<number | null>,
  tolerance: number,
): void {
  const got = typeof actual === 'number' ? [actual] : Array.from(actual);
  const want = expected === null || typeof expected === 'number' ? [expected] : Array.from(expected);
  expect(got.length, `${about.method} ${about.source}: length`).toBe(want.length);
  let worst = 0;
  want.forEach((value, index) => {
    if (value === null) return;
    const error = relativeError(got[index] as number, value);
    if (!(error <= tolerance))
      expect.fail(`${about.method} v ${about.source} [${index}]: ${got[index]} is not ${value} (relative ${error})`);
    worst = Math.max(worst, error);
  });
  note({ ...about, worst, tolerance, compared: want.filter((v) => v !== null).length });
}

/** One line for the table of the README while `make-table.ts` runs the tests; nothing otherwise. */
function note(entry: object): void {
  const log = process.env['HUBCAUSE_REFERENCE_LOG'];
  if (log) appendFileSync(log, `${JSON.stringify(entry)}\n`);
}
