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
  /** With `cluster`, if there are more clusters than terms. By F. */
  readonly robustWald?: TestResult;
  /** With `negative-binomial`: likelihood ratio against Poisson counts, half of a chi-square (Self & Liang 1987). */
  readonly overdispersion?: TestResult;
}

export function countTests(
  fit: CountFit,
  none: CountFit,
  estimate: CountEstimate,
  width: number,
  spread: number,
  degreesOfFreedom: number,
): CountTests {
  const { covariance, robustCovariance, robustDegrees } = estimate;
  const degrees = spread === 1 ? Infinity : degreesOfFreedom;
  const robust = robustCovariance && waldTest(estimate, robustCovariance, robustDegrees);
  const gain = Math.max(0, 2 * (fit.value - fit.poisson.value));
  return {
    likelihoodRatio: test(Math.max(0, 2 * (fit.value - none.value)) / spread, width, degrees),
    wald: waldTest(estimate, covariance, degrees) ?? test(0, width, degrees),
    ...(robust ? { robustWald: robust } : {}),
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

/** Null where there are too few clusters to tell so many terms apart. */
function waldTest(
  { coefficients }: CountEstimate,
  covariance: Float64Array,
  degreesOfFreedom: number,
): TestResult | null {
  const n = coefficients.length;
  const finite = [...coefficients.keys()].filter((j) => j > 0 && Number.isFinite(covariance[j * n + j]));
  if (!(degreesOfFreedom > 0)) return null;
  const statistic = quadraticForm(covariance, n, coefficients, finite);
  return statistic === null ? null : test(statistic, finite.length, degreesOfFreedom);
}

/** By F where the covariance was estimated with so many degrees of freedom. */
const test = (statistic: number, terms: number, degreesOfFreedom: number): TestResult =>
  degreesOfFreedom === Infinity || terms === 0
    ? chiSquareTest(statistic, terms)
    : { statistic, degreesOfFreedom: terms, pValue: fTail(statistic / terms, terms, degreesOfFreedom) };
