import type { CoxEstimate } from './cox-estimate.ts';
import type { PreparedCox } from './cox-prepare.ts';
import { chiSquareTail } from './numeric/chi-square-tail.ts';
import { unknownOf } from './climb-to-top.ts';
import { profileLimit } from './profile-limit.ts';
import { standardNormalQuantile } from './numeric/normal.ts';

export interface CoxRatios {
  /** Log hazard ratios; ±Infinity where the likelihood is monotone. */
  readonly coefficients: Float64Array;
  /** Model-based, from the inverse information; Infinity for an infinite coefficient. */
  readonly standardErrors: Float64Array;
  /** With `cluster`: Lin–Wei sandwich, without small-sample correction. */
  readonly robustStandardErrors?: Float64Array;
  /** Of the Wald test that a ratio is 1, on the model's errors; 1 for an infinite coefficient, of which it tells nothing. */
  readonly pValue: Float64Array;
  /** With `cluster`: the same on the robust errors. */
  readonly robustPValue?: Float64Array;
  /** Row-major terms × terms, model-based. */
  readonly covariance: Float64Array;
  readonly robustCovariance?: Float64Array;
  /** Hazard ratios, with model-based limits. */
  readonly ratio: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** With `cluster`: Wald limits of the ratios resting on the robust errors. */
  readonly robustLower?: Float64Array;
  readonly robustUpper?: Float64Array;
  /** What `lower` and `upper` rest on; an infinite coefficient always has profile limits. */
  readonly limits: 'wald' | 'profile';
}

/** See `CoxOptions`. */
interface WantedLimits {
  readonly limits?: 'wald' | 'profile';
  readonly limitsOf?: readonly string[];
  readonly firth?: boolean;
}

/** Estimates, errors and limits in the covariates' own units. */
export function ratiosInUnits(
  prepared: PreparedCox,
  estimate: CoxEstimate,
  level: number,
  options: WantedLimits,
): CoxRatios {
  const limits = options.limits ?? (options.firth ? 'profile' : 'wald');
  const isWanted = (j: number) => options.limitsOf?.includes(prepared.terms[j] as string) ?? true;
  const { scale } = prepared.problem;
  const { fit, covariance, robustCovariance } = estimate;
  const z = standardNormalQuantile(0.5 + level / 2);
  const unknown = unknownOf(fit);
  const coefficients = fit.beta.map((value, j) => {
    if (unknown.includes(j)) return 0;
    return fit.infinite[j] ? fit.infinite[j] * Infinity : value / (scale[j] as number);
  });
  const unbounded = fit.infinite.map((sign, j) => (sign !== 0 || unknown.includes(j) ? 1 : 0));
  const model = inUnits(covariance, unbounded, scale);
  const robust = robustCovariance ? inUnits(robustCovariance, unbounded, scale) : null;
  const standardErrors = rootDiagonal(model, scale.length);
  const robustErrors = robust ? rootDiagonal(robust, scale.length) : null;
  const wald = (errors: Float64Array, side: -1 | 1) =>
    coefficients.map((value, j) =>
      Number.isFinite(errors[j]) ? Math.exp(value + side * z * (errors[j] as number)) : side < 0 ? 0 : Infinity,
    );
  const modelLimits = (side: -1 | 1) =>
    wald(standardErrors, side).map((value, j) => {
      if (limits !== 'profile' && !fit.infinite[j]) return value;
      return isWanted(j) ? profile(prepared, estimate, j, side, z) : side < 0 ? 0 : Infinity;
    });
  return {
    coefficients,
    standardErrors,
    ...(robustErrors ? { robustStandardErrors: robustErrors } : {}),
    pValue: waldPValues(coefficients, standardErrors),
    ...(robustErrors ? { robustPValue: waldPValues(coefficients, robustErrors) } : {}),
    covariance: model,
    ...(robust ? { robustCovariance: robust } : {}),
    ratio: coefficients.map(Math.exp),
    lower: modelLimits(-1),
    upper: modelLimits(1),
    ...(robustErrors ? { robustLower: wald(robustErrors, -1), robustUpper: wald(robustErrors, 1) } : {}),
    limits,
  };
}

function profile(
  { problem }: PreparedCox,
  { fit, climbable, covariance }: CoxEstimate,
  j: number,
  side: -1 | 1,
  z: number,
): number {
  if (!fit.converged || fit.infinite[j] === side) return side < 0 ? 0 : Infinity;
  // Infinite coefficients start from zero: far out the likelihood is flat and gives no direction.
  const start = fit.beta.map((value, k) => (fit.infinite[k] ? 0 : value));
  const error = Math.sqrt(covariance[j * problem.width + j] as number);
  const firstStep = fit.infinite[j] ? 1 : Math.min(10, z * error);
  const limit = profileLimit(climbable, { value: fit.value, start }, j, side, z, firstStep);
  return Math.exp(limit / (problem.scale[j] as number));
}

function inUnits(covariance: Float64Array, unbounded: Int8Array, scale: Float64Array): Float64Array {
  const width = scale.length;
  return covariance.map((value, at) => {
    const [row, column] = [Math.floor(at / width), at % width];
    if (row === column && unbounded[row]) return Infinity;
    return value / ((scale[row] as number) * (scale[column] as number));
  });
}

const waldPValues = (coefficients: Float64Array, errors: Float64Array): Float64Array =>
  coefficients.map((value, j) => {
    const error = errors[j] as number;
    return Number.isFinite(value) && error > 0 && error < Infinity ? chiSquareTail((value / error) ** 2, 1) : 1;
  });

const rootDiagonal = (matrix: Float64Array, width: number): Float64Array =>
  Float64Array.from({ length: width }, (_, j) => Math.sqrt(Math.max(0, matrix[j * width + j] as number)));
