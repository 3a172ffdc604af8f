import { checkLives, toEvents } from './checked-lives.ts';
import { grayStratum, type GraySums } from './gray-sweep.ts';
import type { ChiSquareTest } from './log-rank.ts';
import { chiSquareTail } from './numeric/chi-square-tail.ts';
import { quadraticForm } from './numeric/quadratic-form.ts';
import { riskOrder } from './risk-order.ts';
import { StatisticsError } from './statistics-error.ts';
import { toCategory, type SurvivalData } from './survival-data.ts';

export interface GrayTestOptions {
  /** The cause whose incidences are compared, default 1; all other codes but 0 compete. */
  readonly cause?: number;
  /** Power of 1 − F₀(t−) that weighs each event, default 0; positive favours early differences. */
  readonly rho?: number;
}

export interface GrayTest extends ChiSquareTest {
  readonly cause: number;
  readonly rho: number;
  /** Levels of `group`; the arrays below follow them. */
  readonly groups: readonly string[];
  /** Events of the cause, under the test's weights. */
  readonly observed: Float64Array;
  /** Events of the cause had its incidence been the same in all groups. */
  readonly expected: Float64Array;
  /** Covariance of observed − expected, row-major, groups × groups. */
  readonly variance: Float64Array;
}

/**
 * Gray's test that the cumulative incidence of one cause is the same in all groups. Unlike the log-rank
 * test of that cause it compares how many fail of it, not how fast those still at risk do. Strata are
 * summed; whole weights are repeats; late entry enters through the numbers at risk. Without competing
 * causes the scores are those of the log-rank test.
 *
 * Source: Gray 1988, Annals of Statistics 16:1141–1154, with the correction for ties of its author's
 * program. Outside check: R cmprsk 2.2-11 `cuminc` on mgus2, 1e-7; scores against `logRank` where
 * nothing competes; size by simulation.
 *
 * @throws StatisticsError naming the argument and row: no `group`, fractional weights, a cause that is
 * not a whole number from 1, and all that `cumulativeIncidence` refuses.
 */
export function grayTest(data: SurvivalData, options: GrayTestOptions = {}): GrayTest {
  const { cause, rho } = checkOptions(data, options);
  const lives = checkLives(data);
  const event = toEvents(data.event, lives.rows, 255);
  if (lives.weight) checkWhole(lives.weight);
  const strata = data.strata ? toCategory('strata', data.strata, lives.rows) : null;
  const order = riskOrder(lives.exit, lives.entry, strata && { count: strata.levels.length, codes: strata.codes });
  const groups = lives.group.levels;
  const sums: GraySums = {
    observed: new Float64Array(groups.length),
    expected: new Float64Array(groups.length),
    variance: new Float64Array(groups.length ** 2),
  };
  for (let part = 0; part < order.parts; part++) grayStratum(order, part, lives, event, cause, rho, sums);
  return { ...test(sums), cause, rho, groups, ...sums };
}

function checkOptions(data: SurvivalData, options: GrayTestOptions): { cause: number; rho: number } {
  if (!data.group) throw new StatisticsError('group', 'is wanted: the test compares groups');
  const { cause = 1, rho = 0 } = options;
  if (!(Number.isInteger(cause) && cause >= 1))
    throw new StatisticsError('cause', `${cause} is not a whole number from 1`);
  if (!Number.isFinite(rho)) throw new StatisticsError('rho', `${rho} is not a finite number`);
  return { cause, rho };
}

function checkWhole(weight: Float64Array): void {
  const row = weight.findIndex((value) => !Number.isInteger(value));
  if (row >= 0) throw new StatisticsError('weight', `${weight[row]} is not a whole number: the test counts lives`, row);
}

function test({ observed, expected, variance }: GraySums): ChiSquareTest {
  const excess = observed.map((events, group) => events - (expected[group] as number));
  const { value, rank } = quadraticForm(variance, excess);
  if (rank > 0) return { statistic: value, degreesOfFreedom: rank, pValue: chiSquareTail(value, rank) };
  const none = observed.every((events) => events === 0);
  const reason = none ? 'no events of the cause' : 'no event of the cause while more than one group was at risk';
  return { statistic: null, degreesOfFreedom: 0, pValue: null, reason };
}
