import type { StandardisedDesign } from './life-design.ts';
import { cholesky, choleskyFailed, solveCholesky } from './numeric/cholesky.ts';
import { subMatrix } from './regression-result.ts';

/** Coefficients whose likelihood rises without end. */
export interface Runaways {
  /** One index into θ for each direction of endless climb: held where they are for the rest to be judged. */
  readonly held: readonly number[];
  /** Sign of infinity of the intercept and each coefficient in the caller's units, 0 for the finite ones. */
  readonly sign: Int8Array;
}

/**
 * A covariate that moves log life by some few units across its range has information of one or
 * more once a single life failed on each side; a ten-thousandth is left only far out along a
 * direction in which the likelihood is monotone.
 */
const NOTHING_LEFT = 1e-4;
/** Share of the largest component of a direction below which a component is taken for rounding. */
const NEGLIGIBLE = 1e-3;

/** Reads endless climbs off the Hessian where the climb was given up; coefficients are per range of their covariate. */
export function runaways(theta: Float64Array, hessian: Float64Array, design: StandardisedDesign): Runaways {
  const n = theta.length;
  const { width } = design;
  const information = hessian.map((value) => -value);
  const kept = [0, ...(n > width + 1 ? [n - 1] : [])];
  const held: number[] = [];
  const sign = new Int8Array(width + 1);
  for (let k = 1; k <= width; k++) {
    const { left, direction } = conditionalInformation(information, n, kept, k);
    if (left > NOTHING_LEFT) {
      kept.push(k);
      continue;
    }
    held.push(k);
    markInfinite(sign, theta, direction, design);
  }
  return { held, sign };
}

/** Information on parameter k when those kept are free, and the direction they move along with it. */
function conditionalInformation(information: Float64Array, n: number, kept: readonly number[], k: number) {
  const direction = new Float64Array(n);
  direction[k] = 1;
  const factor = cholesky(subMatrix(information, n, kept), kept.length, 1e-14);
  if (choleskyFailed(factor)) return { left: Infinity, direction };
  const moves = solveCholesky(
    factor,
    kept.map((row) => information[row * n + k] as number),
  );
  let left = information[k * n + k] as number;
  kept.forEach((row, i) => {
    direction[row] = -(moves[i] as number);
    left -= (moves[i] as number) * (information[row * n + k] as number);
  });
  return { left, direction };
}

function markInfinite(sign: Int8Array, theta: Float64Array, direction: Float64Array, design: StandardisedDesign): void {
  const { centre, scale, width } = design;
  const columns = direction.subarray(1, width + 1);
  const most = columns.reduce((largest, value) => Math.max(largest, Math.abs(value)), 0);
  const clean = columns.map((value) => (Math.abs(value) < NEGLIGIBLE * most ? 0 : value));
  // The climb has gone far along the direction already, so the coefficients themselves say which way.
  const along = clean.reduce((sum, value, j) => sum + value * (theta[j + 1] as number), 0);
  let atZero = direction[0] as number;
  clean.forEach((value, j) => {
    if (value !== 0) sign[j + 1] = Math.sign(value * along);
    atZero -= (value * (centre[j] as number)) / (scale[j] as number);
  });
  if (Math.abs(atZero) > NEGLIGIBLE * most) sign[0] = Math.sign(atZero * along);
}
