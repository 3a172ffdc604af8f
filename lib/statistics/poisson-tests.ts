import { chiSquareTail } from './numeric/chi-square-tail.ts';
import { fTail } from './numeric/f-tail.ts';
import type { CountEstimate } from './poisson-estimate.ts';
import type { CountFit } from './poisson-fit.ts';
import { chiSquareTest, quadraticForm, type TestResult } from './regression-result.ts';

export interface CountTests {
  /** Against the intercept alone, which has its own θ. Over the dispersion and by F with `quasi`. */
  readonly likelihoodRatio: TestResult;
  /** Over the terms with a finite estimate. By F with `quasi`. */
  readonly wald: TestResult;
  /** With `cluster`, if there are more clusters than terms. */
  readonly robustWald?: TestResult;
  /** With `negative-binomial`: likelihood ratio against Poisson counts, half of a chi-square (Self & Liang 1987). */
  readonly overdispersion?: TestResult;
}

export function countTests(
  fit: CountFit,
  none: CountFit,
  { covariance, robustCovariance, coefficients, infinite }: CountEstimate,
  width: number,
  spread: number,
  degreesOfFreedom: number,
): CountTests {
  const finite = [...coefficients.keys()].filter(
    (j) => j > 0 && infinite[j] === 0 && Number.isFinite(covariance[j * coefficients.length + j]),
  );
  const wald = (matrix: Float64Array) => quadraticForm(matrix, coefficients.length, coefficients, finite);
  // With no more clusters than terms it is singular.
  const robust = robustCovariance && wald(robustCovariance);
  // The spread was estimated with so many degrees of freedom, if at all.
  const test = (statistic: number, terms: number): TestResult =>
    spread === 1
      ? chiSquareTest(statistic, terms)
      : { statistic, degreesOfFreedom: terms, pValue: fTail(statistic / terms, terms, degreesOfFreedom) };
  const gain = Math.max(0, 2 * (fit.value - fit.poisson.value));
  return {
    likelihoodRatio: test(Math.max(0, 2 * (fit.value - none.value)) / spread, width),
    wald: test(wald(covariance) ?? 0, finite.length),
    ...(robust === null ? {} : { robustWald: chiSquareTest(robust, finite.length) }),
    ...(fit.at
      ? {
          overdispersion: {
            statistic: gain,
            degreesOfFreedom: 1,
            pValue: fit.theta < Infinity ? chiSquareTail(gain, 1) / 2 : 1,
          },
        }
      : {}),
  };
}
