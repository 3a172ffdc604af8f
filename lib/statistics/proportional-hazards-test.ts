import { estimateCox } from './cox-estimate.ts';
import { coxWarnings } from './cox-warnings.ts';
import { prepareCox, type PreparedCox, type PrepareOptions } from './cox-prepare.ts';
import { approximation1994, scaledSchoenfeld, type ScaledSchoenfeld } from './proportional-hazards-test-residuals.ts';
import { tiltTest } from './proportional-hazards-test-score.ts';
import { eventTimeTransform, type TimeTransform } from './proportional-hazards-test-time.ts';
import { quadraticForm } from './numeric/quadratic-form.ts';
import { chiSquareTest, subMatrix, type RegressionWarning, type TestResult } from './regression-result.ts';
import type { SurvivalData } from './survival-data.ts';

export interface ProportionalHazardsOptions extends PrepareOptions {
  /** What the log ratio is tried against: `km` (default, 1 − Kaplan–Meier just before), `rank`, `identity` or `log` time. */
  readonly transform?: TimeTransform;
}

export interface ProportionalHazardsTest {
  readonly transform: TimeTransform;
  /** Terms tested: those of the fit with a finite estimate. */
  readonly terms: readonly string[];
  readonly statistic: Float64Array;
  /** 1 each, 0 where nothing can be told (a single failure, say): the statistic is then 0, and a warning says so. */
  readonly degreesOfFreedom: Int32Array;
  readonly pValue: Float64Array;
  /** All the levels of a category taken together. */
  readonly covariates: readonly ({ readonly name: string } & TestResult)[];
  readonly global: TestResult;
  /** The approximation of 1994, which takes the variance of the residuals to be the same at all times. */
  readonly approximation: { readonly statistic: Float64Array; readonly global: number };
  readonly residuals: ScaledSchoenfeld;
  readonly warnings: readonly RegressionWarning[];
}

/**
 * Does a hazard ratio change with time? Score test of adding covariate × g(time) to the fit, by
 * term, by covariate and over all, with the exact information (as R survival has it since 3.0);
 * the older approximation of Grambsch & Therneau is given beside it.
 *
 * With many failures a p-value finds changes too small to matter; judge by their size
 * (`coxTimeSplit`).
 *
 * @throws StatisticsError as `coxRegression`; for `log` also when an event is at time zero.
 * Source: Grambsch & Therneau 1994, Biometrika 81:515; Therneau & Grambsch 2000 §6.2.
 * Outside check: reference cases cox-veteran, -veteran-strata, -heart-timedependent,
 * -nickel-lefttrunc, -ovarian (cox.zph), 1e-7.
 */
export function proportionalHazardsTest(
  data: SurvivalData,
  options: ProportionalHazardsOptions = {},
): ProportionalHazardsTest {
  const transform = options.transform ?? 'km';
  const prepared = prepareCox(data, options);
  const { problem, terms, none } = prepared;
  const estimate = estimateCox(prepared, {});
  const { fit, finite, covariance, climbable } = estimate;
  climbable.evaluate(fit.beta).information();
  const { sums } = none;
  const times = eventTimeTransform(prepared.survival, problem.sets, transform);
  const { tilt, variance } = tiltTest(problem, sums, times.centred, fit.free, finite);
  const jointly = (columns: readonly number[]): TestResult => {
    const part = subMatrix(variance, finite.length, columns);
    const { value, rank } = quadraticForm(
      part,
      columns.map((j) => tilt[j] as number),
    );
    return chiSquareTest(value, rank);
  };
  const columns = [...finite.keys()];
  const single = columns.map((column) => jointly([column]));
  const covariateOf = (column: number): string => covariateName(prepared, finite[column] as number);
  const untold = columns.flatMap((column): RegressionWarning[] => {
    if (single[column]?.degreesOfFreedom === 1) return [];
    const term = terms[finite[column] as number] as string;
    const message = `${term} varies at one failure time at most, so that no change of its ratio could be seen`;
    return [{ kind: 'constant', term, message }];
  });
  const residuals = scaledSchoenfeld(problem, sums, times.transformed, fit.beta, covariance, finite);
  return {
    transform,
    terms: finite.map((j) => terms[j] as string),
    statistic: Float64Array.from(single, ({ statistic }) => statistic),
    degreesOfFreedom: Int32Array.from(single, ({ degreesOfFreedom }) => degreesOfFreedom),
    pValue: Float64Array.from(single, ({ pValue }) => pValue),
    covariates: [...new Set(columns.map(covariateOf))].map((name) => {
      return { name, ...jointly(columns.filter((column) => covariateOf(column) === name)) };
    }),
    global: jointly(columns),
    approximation: approximation1994(problem, sums, times.centred, covariance, finite),
    residuals,
    warnings: [...coxWarnings(prepared, estimate), ...untold],
  };
}

function covariateName({ design, kept }: PreparedCox, column: number): string {
  const source = design.sourceOf[kept[column] as number] as number;
  return (design.sources[source] as { readonly name: string }).name;
}
