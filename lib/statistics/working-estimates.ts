import { standardNormalQuantile } from './numeric/normal.ts';

/** An estimate with its standard error and limits; the limits are not symmetric where they are formed on another scale. */
export interface Estimate {
  readonly value: number;
  readonly standardError: number;
  readonly lower: number;
  readonly upper: number;
  /** The same from the cluster-robust covariance, when clusters were given. */
  readonly robust?: { readonly standardError: number; readonly lower: number; readonly upper: number };
}

/** The parameters on the scale where the likelihood is nearest to normal and the Wald limits are formed. */
export interface WorkingParameters {
  readonly names: readonly string[];
  readonly values: Float64Array;
  /** Row-major; null when the information was not positive definite, and limits are then unbounded. */
  readonly covariance: Float64Array | null;
  readonly robustCovariance: Float64Array | null;
}

/** A monotone map from the working scale to the scale reported, with its slope. */
export interface Scale {
  to(working: number): number;
  slope(working: number): number;
}

export const LOG_SCALE: Scale = { to: Math.exp, slope: Math.exp };
export const PLAIN_SCALE: Scale = { to: (x) => x, slope: () => 1 };

/** aᵀ C a for row-major C. */
export function quadraticForm(a: ArrayLike<number>, covariance: Float64Array): number {
  const n = a.length;
  let sum = 0;
  for (let row = 0; row < n; row++)
    for (let column = 0; column < n; column++)
      sum += (a[row] as number) * (covariance[row * n + column] as number) * (a[column] as number);
  return sum;
}

/** Delta-method estimate of scale.to(at), its Wald limits formed on the working scale (Meeker & Escobar §8.4, B.2). */
export function waldEstimate(
  working: WorkingParameters,
  level: number,
  at: number,
  gradient: ArrayLike<number>,
  scale: Scale,
): Estimate {
  const z = standardNormalQuantile(0.5 + level / 2);
  const around = (covariance: Float64Array | null) => {
    const error = covariance ? Math.sqrt(Math.max(0, quadraticForm(gradient, covariance))) : Infinity;
    const ends = [scale.to(at - z * error), scale.to(at + z * error)] as const;
    // A slope that has vanished times an unbounded error is still unbounded.
    const standardError = error === Infinity ? Infinity : Math.abs(scale.slope(at)) * error;
    return { standardError, lower: Math.min(...ends), upper: Math.max(...ends) };
  };
  const estimate = { value: scale.to(at), ...around(working.covariance) };
  return working.robustCovariance ? { ...estimate, robust: around(working.robustCovariance) } : estimate;
}

/** J C Jᵀ for row-major J (m × n) and symmetric C (n × n), exactly symmetric. */
export function transformCovariance(jacobian: Float64Array, covariance: Float64Array, n: number): Float64Array {
  const m = jacobian.length / n;
  const half = new Float64Array(m * n);
  for (let row = 0; row < m; row++)
    for (let i = 0; i < n; i++) {
      const factor = jacobian[row * n + i] as number;
      if (factor === 0) continue;
      for (let j = 0; j < n; j++)
        half[row * n + j] = (half[row * n + j] as number) + factor * (covariance[i * n + j] as number);
    }
  const result = new Float64Array(m * m);
  for (let row = 0; row < m; row++)
    for (let column = 0; column <= row; column++) {
      let sum = 0;
      for (let j = 0; j < n; j++) sum += (half[row * n + j] as number) * (jacobian[column * n + j] as number);
      result[row * m + column] = result[column * m + row] = sum;
    }
  return result;
}
