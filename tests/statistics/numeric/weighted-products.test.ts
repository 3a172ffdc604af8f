import { describe, expect, it } from 'vitest';
import { createRandom } from '../../../lib/statistics/numeric/random.ts';
import {
  addWeightedProducts,
  addWeightedRows,
  mirrorLower,
  withIntercept,
} from '../../../lib/statistics/numeric/weighted-products.ts';

const random = createRandom(2);
const draw = (length: number) => Float64Array.from({ length }, () => random.normal());

/** Σ_k w_k x_kj over rows from `first`, and Σ_k w_k x_ki x_kj, by their definitions. */
const rowsByHand = (table: Float64Array, width: number, weight: ArrayLike<number>, first = 0) =>
  Array.from({ length: width }, (_, j) =>
    Array.from(weight).reduce((sum, w, k) => sum + w * (table[(first + k) * width + j] as number), 0),
  );
const productsByHand = (table: Float64Array, width: number, weight: ArrayLike<number>) =>
  Array.from({ length: width * width }, (_, cell) =>
    Array.from(weight).reduce((sum, w, k) => {
      const base = k * width;
      return sum + w * (table[base + Math.floor(cell / width)] as number) * (table[base + (cell % width)] as number);
    }, 0),
  );
const close = (got: ArrayLike<number>, want: readonly number[]) =>
  Array.from(got).forEach((value, k) => expect(value).toBeCloseTo(want[k] as number, 9));

describe('weighted products', () => {
  // Widths on both sides of the blocks of four, rows on both sides of a tile of 512.
  it.each([1, 2, 3, 4, 5, 7, 8, 11, 13])('of %d columns are those of the plain loops', (width) => {
    for (const count of [0, 1, 37, 512, 1100]) {
      const [table, weight] = [draw(count * width), draw(count)];
      for (const [given, meant] of [
        [weight, weight],
        [null, weight.map(() => 1)],
      ] as const) {
        const target = new Float64Array(width * width);
        addWeightedProducts(target, table, width, count, given, 2);
        addWeightedProducts(target, table, width, count, given, -1);
        close(mirrorLower(target, width), productsByHand(table, width, meant));
      }
    }
  });

  it('sums rows from any place on, with weights from any place on', () => {
    const [table, weight] = [draw(60), draw(30)];
    const target = Float64Array.of(1, 2, 3);
    addWeightedRows(target, table, 3, 5, 12, weight, 4);
    close(
      target,
      rowsByHand(table, 3, weight.subarray(4, 16), 5).map((sum, j) => sum + j + 1),
    );
  });

  it('puts a column of ones before the others', () => {
    const [table, weight] = [draw(24), draw(8)];
    const ones = Float64Array.of(
      weight.reduce((sum, w) => sum + w, 0),
      ...rowsByHand(table, 3, weight),
    );
    const products = Float64Array.from(productsByHand(table, 3, weight));
    const wide = Float64Array.from({ length: 32 }, (_, at) =>
      at % 4 === 0 ? 1 : (table[Math.floor(at / 4) * 3 + (at % 4) - 1] as number),
    );
    close(withIntercept(ones, products, 3), productsByHand(wide, 4, weight));
  });
});
