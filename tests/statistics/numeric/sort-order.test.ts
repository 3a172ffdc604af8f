import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sortOrder } from '../../../lib/statistics/numeric/sort-order.ts';

const byComparison = (values: Float64Array): number[] =>
  [...values.keys()].sort((a, b) => (values[a] as number) - (values[b] as number) || a - b);

/** Repeats a short list until it is long enough to be dealt rather than insertion-sorted. */
const long = (values: readonly number[], factor: (copy: number) => number): Float64Array =>
  Float64Array.from(
    { length: values.length * 60 },
    (_, row) => (values[row % values.length] as number) * factor(Math.floor(row / values.length)),
  );

describe('sortOrder', () => {
  it('orders a few rows, ties in row order', () => {
    expect([...sortOrder(Float64Array.of(3, 1, 2, 1, -0, 0))]).toEqual([4, 5, 1, 3, 2, 0]);
  });

  const anyDouble = fc.double({ noNaN: true, noDefaultInfinity: true });
  it.each([
    ['doubles of any size and sign', fc.array(anyDouble, { minLength: 10, maxLength: 40 }), (c: number) => 1 + (c % 7)],
    ['whole miles', fc.array(fc.integer({ min: 0, max: 900_000 }), { minLength: 10 }), (c: number) => 1 + (c % 3)],
    ['whole numbers of both signs', fc.array(fc.integer(), { minLength: 10 }), () => 1],
    [
      'values that differ only in their last bits',
      fc.array(
        fc.integer({ min: 0, max: 30 }).map((k) => 1 + k * 2 ** -52),
        { minLength: 10 },
      ),
      () => 1,
    ],
    [
      'clumps whose leading bits agree, far from one another',
      fc.array(
        fc.tuple(fc.constantFrom(-1e9, 0.001, 1e12), fc.nat(200)).map(([at, k]) => at * (1 + k * 2 ** -50)),
        { minLength: 10 },
      ),
      () => 1,
    ],
  ])('agrees with a comparison sort: %s', (_, list, factor) => {
    fc.assert(
      fc.property(list, (values) => {
        const column = long(values, factor);
        if (!column.every(Number.isFinite)) return;
        expect([...sortOrder(column)]).toEqual(byComparison(column));
      }),
      { numRuns: 60 },
    );
  });

  it('orders a chosen subset only, and leaves its arguments alone', () => {
    const values = Float64Array.from({ length: 3000 }, (_, row) => Math.sin(row) * 10);
    const before = values.slice();
    const rows = Uint32Array.from({ length: 1000 }, (_, place) => place * 3);
    const given = rows.slice();
    const order = sortOrder(values, rows);
    expect([...order]).toEqual([...rows].sort((a, b) => (values[a] as number) - (values[b] as number)));
    expect(rows).toEqual(given);
    expect(values).toEqual(before);
  });

  it('falls back to comparisons where no equal slicing divides the range', () => {
    const powers = Float64Array.from({ length: 4000 }, (_, row) => 2 ** (((row * 997) % 2000) - 1000));
    expect([...sortOrder(powers)]).toEqual(byComparison(powers));
    const infinite = Float64Array.from({ length: 500 }, (_, row) => (row % 3 ? Math.sin(row) : Infinity));
    const order = sortOrder(infinite);
    expect(order.every((row, place) => place === 0 || infinite[row]! >= infinite[order[place - 1]!]!)).toBe(true);
  });

  it('handles no rows, one row and all equal', () => {
    expect(sortOrder(new Float64Array(0))).toHaveLength(0);
    expect([...sortOrder(Float64Array.of(7))]).toEqual([0]);
    expect([...sortOrder(new Float64Array(1000).fill(4))]).toEqual([...Array(1000).keys()]);
  });
});
