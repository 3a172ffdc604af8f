import { estimateCox } from './cox-estimate.ts';
import { coxWarnings } from './cox-warnings.ts';
import { prepareCox, type PreparedCox, type PrepareOptions } from './cox-prepare.ts';
import { approximation1994, scaledSchoenfeld, type ScaledSchoenfeld } from './proportional-hazards-test-residuals.ts';
import { clusterTiltVariance } from './proportional-hazards-test-clusters.ts';
import { tiltTest } from './proportional-hazards-test-score.ts';
import { eventTimeTransform, type TimeTransform } from './proportional-hazards-test-time.ts';
import { quadraticForm } from './numeric/quadratic-form.ts';
import { chiSquareTest, subMatrix, type RegressionWarning, type TestResult } from './regression-result.ts';
import type { SurvivalData } from './survival-data.ts';

export interface ProportionalHazardsOptions extends PrepareOptions {
  /** What the log ratio is tried against: `km` (default, 1 − Kaplan–Meier just before), `rank`, `identity` or `log` time. */
  readonly transform?: TimeTransform;
}

/** Tests by term, by covariate and over all. */
export interface ProportionalHazardsStatistics {
  readonly statistic: Float64Array;
  /** 1 each, 0 where nothing can be told (a single failure, say): the statistic is then 0, and a warning says so. */
  readonly degreesOfFreedom: Int32Array;
  readonly pValue: Float64Array;
  /** All the levels of a category taken together. */
  readonly covariates: readonly ({ readonly name: string } & TestResult)[];
  readonly global: TestResult;
}

export interface ProportionalHazardsTest extends ProportionalHazardsStatistics {
  readonly transform: TimeTransform;
  /** Terms tested: those of the fit with a finite estimate. */
  readonly terms: readonly string[];
  /** With clusters moving as one, if there are more of them than terms: to go by where rows of a cluster share a fate. */
  readonly robust?: ProportionalHazardsStatistics & { readonly clusters: number };
  /** The approximation of 1994, which takes the variance of the residuals to be the same at all times. */
  readonly approximation: { readonly statistic: Float64Array; readonly global: number };
  readonly residuals: ScaledSchoenfeld;
  readonly warnings: readonly RegressionWarning[];
}

/**
 * Does a hazard ratio change with time? Score test of adding covariate × g(time) to the fit, by
 * term, by covariate and over all, with the exact information (as R survival has it since 3.0);
 * the older approximation of Grambsch & Therneau is given beside it. It takes rows as independent:
 * where those of a cluster share their fate it rejects too often, and `robust` (with `cluster`) holds.
 *
 * With many failures a p-value finds changes too small to matter; judge by their size
 * (`coxTimeSplit`).
 *
 * @throws StatisticsError as `coxRegression`; for `log` also when an event is at time zero.
 * Source: Grambsch & Therneau 1994, Biometrika 81:515; Therneau & Grambsch 2000 §6.2; robust: Lin & Wei 1989.
 * Outside check: reference cases cox-veteran, -veteran-strata, -heart-timedependent,
 * -nickel-lefttrunc, -ovarian (cox.zph), 1e-7; robust by hand and by simulation.
 */
export function proportionalHazardsTest(
  data: SurvivalData,
  options: ProportionalHazardsOptions = {},
): ProportionalHazardsTest {
  const transform = options.transform ?? 'km';
  const prepared = prepareCox(data, options);
  const { problem, terms, none, survival } = prepared;
  const estimate = estimateCox(prepared, {});
  const { fit, finite, covariance, climbable, clusters } = estimate;
  climbable.evaluate(fit.beta).information();
  const { sums } = none;
  const times = eventTimeTransform(survival, problem.sets, transform);
  const tilted = tiltTest(problem, sums, times.centred, fit.free, finite);
  const names = finite.map((j) => covariateName(prepared, j));
  const statistics = testTilt(tilted.tilt, tilted.variance, names);
  const clusterVariance =
    survival.cluster && clusters !== null && clusters > Math.max(1, finite.length)
      ? clusterTiltVariance(problem, sums, times.centred, survival.cluster, fit.free, finite, tilted)
      : null;
  const untold = finite.flatMap((j, column): RegressionWarning[] => {
    if (statistics.degreesOfFreedom[column] === 1) return [];
    const term = terms[j] as string;
    const message = `${term} varies at one failure time at most, so that no change of its ratio could be seen`;
    return [{ kind: 'constant', term, message }];
  });
  return {
    transform,
    terms: finite.map((j) => terms[j] as string),
    ...statistics,
    ...(clusterVariance && clusters !== null
      ? { robust: { ...testTilt(tilted.tilt, clusterVariance, names), clusters } }
      : {}),
    approximation: approximation1994(problem, sums, times.centred, covariance, finite),
    residuals: scaledSchoenfeld(problem, sums, times.transformed, fit.beta, covariance, finite),
    warnings: [...coxWarnings(prepared, estimate), ...untold],
  };
}

/** `names` gives the covariate of each column. */
function testTilt(tilt: Float64Array, variance: Float64Array, names: readonly string[]): ProportionalHazardsStatistics {
  const jointly = (columns: readonly number[]): TestResult => {
    const part = subMatrix(variance, names.length, columns);
    const { value, rank } = quadraticForm(
      part,
      columns.map((j) => tilt[j] as number),
    );
    return chiSquareTest(value, rank);
  };
  const columns = [...names.keys()];
  const single = columns.map((column) => jointly([column]));
  return {
    statistic: Float64Array.from(single, ({ statistic }) => statistic),
    degreesOfFreedom: Int32Array.from(single, ({ degreesOfFreedom }) => degreesOfFreedom),
    pValue: Float64Array.from(single, ({ pValue }) => pValue),
    covariates: [...new Set(names)].map((name) => {
      return { name, ...jointly(columns.filter((column) => names[column] === name)) };
    }),
    global: jointly(columns),
  };
}

function covariateName({ design, kept }: PreparedCox, column: number): string {
  const source = design.sourceOf[kept[column] as number] as number;
  return (design.sources[source] as { readonly name: string }).name;
}
