import type { StandardisedDesign } from './life-design.ts';
import type { CountEstimate } from './poisson-estimate.ts';
import { likelihoodOf, type CountFit } from './poisson-fit.ts';
import { countProblem, type CountProblem } from './poisson-likelihood.ts';
import { negativeBinomial } from './poisson-overdispersion.ts';
import { profileLimit } from './profile-limit.ts';

/** Ratios with their limits. `spread` is what the model's covariance was multiplied by, and the reaches go with it. */
export function countRatios(
  problem: CountProblem,
  design: StandardisedDesign,
  fit: CountFit,
  estimate: CountEstimate,
  { reach, spread, robustReach }: { reach: number; spread: number; robustReach: number },
) {
  const { coefficients, covariance, robustCovariance, infinite } = estimate;
  const standardErrors = rootDiagonal(covariance);
  const robust = robustCovariance && rootDiagonal(robustCovariance);
  const limits = (side: -1 | 1) =>
    waldLimits(coefficients, standardErrors, side * reach).map((limit, j) =>
      infinite[j] === 0 ? limit : limitOfInfinite(problem, design, fit, estimate, j, side * reach * Math.sqrt(spread)),
    );
  return {
    coefficients,
    standardErrors,
    covariance,
    ...(robust ? { robustStandardErrors: robust } : {}),
    ...(robustCovariance ? { robustCovariance } : {}),
    ratio: coefficients.map(Math.exp),
    lower: limits(-1),
    upper: limits(1),
    ...(robust
      ? {
          robustLower: waldLimits(coefficients, robust, -robustReach),
          robustUpper: waldLimits(coefficients, robust, robustReach),
        }
      : {}),
  };
}

/** Square roots of the diagonal of a row-major matrix. */
function rootDiagonal(matrix: Float64Array): Float64Array {
  const n = Math.round(Math.sqrt(matrix.length));
  return Float64Array.from({ length: n }, (_, j) => Math.sqrt(Math.max(0, matrix[j * n + j] as number)));
}

/** Wald limits of e^coefficient; unbounded where the error is. */
const waldLimits = (coefficients: Float64Array, errors: Float64Array, reach: number): Float64Array =>
  coefficients.map((value, j) =>
    Number.isFinite(errors[j]) && Number.isFinite(value) && Number.isFinite(reach)
      ? Math.exp(value + reach * (errors[j] as number))
      : reach < 0
        ? 0
        : Infinity,
  );

/** Likelihood limit of e^coefficient on the finite side of an infinite one. θ is held at its estimate. */
function limitOfInfinite(
  problem: CountProblem,
  design: StandardisedDesign,
  fit: CountFit,
  { infinite }: CountEstimate,
  term: number,
  reach: number,
): number {
  const side = reach < 0 ? -1 : 1;
  if (!fit.converged || infinite[term] === side) return side < 0 ? 0 : Infinity;
  // Far out the likelihood is flat and gives no direction, so that infinite coefficients start from zero.
  const start = fit.gamma.map((value, j) => (fit.poisson.infinite[j] === 0 ? value : 0));
  const from = { value: fit.value, start };
  const limit = (at: CountProblem, of: CountFit) =>
    profileLimit(likelihoodOf(at, of), from, term, side, Math.abs(reach), 1);
  if (term > 0) return Math.exp(limit(problem, fit) / (design.scale[term - 1] as number));
  const plain = countProblem(problem.rows, uncentred(design));
  return Math.exp(limit(plain, { ...fit, at: fit.at && negativeBinomial(plain) }) - problem.rows.logUnit);
}

/** The design with covariates not centred, so that its intercept is that of the caller. */
function uncentred(design: StandardisedDesign): StandardisedDesign {
  const { width, centre, scale } = design;
  const table = design.table.map((value, at) => {
    const j = at % width;
    return value + (centre[j] as number) / (scale[j] as number);
  });
  return { ...design, table, centre: new Float64Array(design.width) };
}
