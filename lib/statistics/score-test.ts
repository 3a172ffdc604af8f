import { chiSquareTail } from './numeric/chi-square-tail.ts';
import { quadraticForm } from './numeric/quadratic-form.ts';

/** A chi-square test. Null where there is nothing to test; `reason` then says why. */
export interface ChiSquareTest {
  readonly statistic: number | null;
  readonly degreesOfFreedom: number;
  readonly pValue: number | null;
  readonly reason?: string;
}

/** What groups had and were due, and the covariance of the difference, row-major, groups × groups. */
export interface GroupScores {
  readonly observed: Float64Array;
  readonly expected: Float64Array;
  readonly variance: Float64Array;
}

/** Covariance of the same scores with clusters moving as one. */
export interface ClusterCovariance {
  readonly variance: Float64Array;
  readonly clusters: number;
}

export const untested = (reason: string): ChiSquareTest => ({
  statistic: null,
  degreesOfFreedom: 0,
  pValue: null,
  reason,
});

export const excessOf = ({ observed, expected }: Pick<GroupScores, 'observed' | 'expected'>): Float64Array =>
  observed.map((events, group) => events - (expected[group] as number));

/** Tests that no group differs; degrees of freedom are the rank of the variance. `what` names the events. */
export function testExcess(scores: GroupScores, what: string): ChiSquareTest {
  const { value, rank } = quadraticForm(scores.variance, excessOf(scores));
  if (rank > 0) return { statistic: value, degreesOfFreedom: rank, pValue: chiSquareTail(value, rank) };
  const none = scores.observed.every((events) => events === 0);
  return untested(none ? `no ${what.replace('event', 'events')}` : `no ${what} while more than one group was at risk`);
}

/** The same test resting on clusters, with its own reason where they are too few to carry it. */
export function testClusters<Test extends ChiSquareTest>(
  scores: GroupScores,
  { variance, clusters }: ClusterCovariance,
  test: (variance: Float64Array) => Test,
): (Test | ChiSquareTest) & ClusterCovariance {
  const groups = scores.observed.length;
  // Scores that cancel within every cluster leave rounding, which must not pass for information.
  const noise = (1e-14 * scores.observed.reduce((sum, events) => sum + events, 0)) ** 2;
  const own = (group: number): boolean => (variance[group * groups + group] as number) > noise;
  const clean = variance.map((sum, cell) => (own(Math.floor(cell / groups)) && own(cell % groups) ? sum : 0));
  const tested = test(clean);
  // With no more clusters than differences the statistic is the number of clusters whatever the data say.
  const differences = quadraticForm(scores.variance, scores.observed).rank;
  const enough = clusters > Math.max(1, differences) && tested.degreesOfFreedom >= differences;
  if (enough || tested.statistic === null) return { ...tested, variance: clean, clusters };
  return { ...untested(`${clusters} clusters are too few for a robust test`), variance: clean, clusters };
}

/** Σ s sᵀ over the rows s of `scores`, each the summed scores of one cluster. */
export function crossProducts(scores: Float64Array, groups: number): Float64Array {
  const sums = new Float64Array(groups * groups);
  for (let base = 0; base < scores.length; base += groups)
    for (let k = 0; k < groups; k++) {
      const score = scores[base + k] as number;
      for (let l = 0; l <= k; l++)
        sums[k * groups + l] = (sums[k * groups + l] as number) + score * (scores[base + l] as number);
    }
  for (let k = 0; k < groups; k++) for (let l = 0; l < k; l++) sums[l * groups + k] = sums[k * groups + l] as number;
  return sums;
}
