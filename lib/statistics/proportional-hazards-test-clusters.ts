import type { CoxProblem } from './cox-problem.ts';
import { clusterScores } from './cox-score.ts';
import type { RiskSums } from './cox-sweep.ts';
import { crossProducts } from './score-test.ts';
import type { Codes } from './survival-data.ts';

/**
 * Covariance of the tilt scores with clusters moving as one: each cluster's score of covariate × g(time), less what it
 * owes to its pull on the fit (the robust score test of Lin & Wei 1989, JASA 84:1074, with the fitted terms taken out).
 * Over the columns `tested`, row-major.
 */
export function clusterTiltVariance(
  problem: CoxProblem,
  sums: RiskSums,
  g: Float64Array,
  { codes, count }: Codes,
  fitted: readonly number[],
  tested: readonly number[],
  { variance, leaning }: { readonly variance: Float64Array; readonly leaning: readonly Float64Array[] },
): Float64Array {
  const { width } = problem;
  const [plain, tilted] = [clusterScores(problem, sums, codes, count), clusterScores(problem, sums, codes, count, g)];
  const pulls = new Float64Array(count * tested.length);
  for (let cluster = 0; cluster < count; cluster++)
    tested.forEach((j, column) => {
      const owed = fitted.reduce(
        (sum, k, index) => sum + (leaning[column]?.[index] as number) * (plain[cluster * width + k] as number),
        0,
      );
      pulls[cluster * tested.length + column] = (tilted[cluster * width + j] as number) - owed;
    });
  // A column whose score cannot vary leaves rounding, which must not pass for information.
  const told = (column: number): boolean => (variance[column * tested.length + column] as number) > 0;
  return crossProducts(pulls, tested.length).map((sum, cell) =>
    told(Math.floor(cell / tested.length)) && told(cell % tested.length) ? sum : 0,
  );
}
