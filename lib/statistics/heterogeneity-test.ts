import { chiSquareTest, type TestResult } from './regression-result.ts';
import { StatisticsError } from './statistics-error.ts';
import type { NumberColumn } from './survival-data.ts';

export interface HeterogeneityTest extends TestResult {
  /** Mean of the estimates, each weighted by one over its variance. */
  readonly mean: number;
}

/**
 * Do independent estimates of one quantity differ among themselves by more than their errors say? Give ratios as logs.
 * Null for fewer than two.
 *
 * Source: Cochran 1954, Biometrics 10:101 (Q, chi-square of one less than the estimates).
 * Outside check: 13 trials of a vaccine, Colditz et al. 1994, as in Viechtbauer 2010, J. Stat. Softw. 36(3).
 *
 * @throws StatisticsError for columns of unlike length, a value not finite, or a variance not above 0.
 */
export function heterogeneityTest(data: {
  readonly value: NumberColumn;
  readonly variance: NumberColumn;
}): HeterogeneityTest | null {
  const [value, variance] = [Array.from(data.value), Array.from(data.variance)];
  if (variance.length !== value.length)
    throw new StatisticsError('variance', `has ${variance.length} rows where ${value.length} are wanted`);
  value.forEach((one, row) => {
    if (!Number.isFinite(one)) throw new StatisticsError('value', `${one} is not a finite number`, row);
  });
  const weight = variance.map((one, row) => {
    if (!(one > 0 && one < Infinity)) throw new StatisticsError('variance', `${one} is not above 0`, row);
    return 1 / one;
  });
  if (value.length < 2) return null;
  const total = weight.reduce((sum, one) => sum + one, 0);
  const mean = value.reduce((sum, one, row) => sum + one * (weight[row] as number), 0) / total;
  const statistic = value.reduce((sum, one, row) => sum + (weight[row] as number) * (one - mean) ** 2, 0);
  return { ...chiSquareTest(statistic, value.length - 1), mean };
}
