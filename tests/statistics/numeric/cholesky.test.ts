import { describe, expect, it } from 'vitest';
import {
  cholesky,
  choleskyFailed,
  invertCholesky,
  logDeterminant,
  sandwich,
  solveCholesky,
} from '../../../lib/statistics/numeric/cholesky.ts';

const factorOf = (a: number[], n: number) => {
  const factor = cholesky(Float64Array.from(a), n);
  if (choleskyFailed(factor)) throw new Error('not positive definite');
  return factor;
};

describe('cholesky', () => {
  // By hand: [[4,2,-2],[2,10,2],[-2,2,6]] = L Lᵀ with L = [[2,0,0],[1,3,0],[-1,1,2]], det = (2·3·2)² = 144.
  const a = [4, 2, -2, 2, 10, 2, -2, 2, 6];

  it('factors, solves and inverts a matrix worked by hand', () => {
    const factor = factorOf(a, 3);
    expect(Array.from(factor.lower)).toEqual([2, 0, 0, 1, 3, 0, -1, 1, 2]);
    expect(logDeterminant(factor)).toBeCloseTo(Math.log(144), 14);
    // b = a (1, 2, 3)ᵀ
    const x = solveCholesky(factor, [2, 28, 20]);
    [1, 2, 3].forEach((value, k) => expect(x[k]).toBeCloseTo(value, 14));
    // Adjugate over determinant: [[56,-16,24],[-16,20,-12],[24,-12,36]] / 144.
    const inverse = invertCholesky(factor);
    [56, -16, 24, -16, 20, -12, 24, -12, 36].forEach((value, k) => expect(inverse[k]).toBeCloseTo(value / 144, 14));
  });

  it('names the column that depends on the ones before it, whatever its units', () => {
    for (const unit of [1e-6, 1, 1e6]) {
      const third = unit * unit * 2;
      // columns u, v, unit·(u+v) with u, v orthonormal
      const gram = Float64Array.from([1, 0, unit, 0, 1, unit, unit, unit, third]);
      expect(cholesky(gram, 3)).toEqual({ failedPivot: 2 });
    }
    expect(cholesky(Float64Array.from([1, 2, 2, 1]), 2)).toEqual({ failedPivot: 1 });
    expect(cholesky(Float64Array.from([NaN]), 1)).toEqual({ failedPivot: 0 });
  });

  it('sandwiches: A M A by hand', () => {
    // A = [[2,1],[1,1]], M = diag(1,3): AMA = [[7,5],[5,4]]
    expect(Array.from(sandwich(Float64Array.from([2, 1, 1, 1]), Float64Array.from([1, 0, 0, 3]), 2))).toEqual([
      7, 5, 5, 4,
    ]);
  });
});
