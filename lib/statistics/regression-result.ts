import { chiSquareTail } from './numeric/chi-square-tail.ts';
import { cholesky, choleskyFailed, invertCholesky, solveCholesky } from './numeric/cholesky.ts';

/** A test statistic, chi-square under the hypothesis it tests. */
export interface TestResult {
  readonly statistic: number;
  readonly degreesOfFreedom: number;
  readonly pValue: number;
}

/** What a regression could not do as asked, by term where one is concerned. */
export interface RegressionWarning {
  /**
   * `constant`: the column says nothing (same for all at risk together), left out.
   * `collinear`: a combination of the terms before it, left out.
   * `separation`: the likelihood rises without end, the estimate is ±Infinity and its ratio 0 or Infinity; or the
   * column differs only where that leaves nothing to tell its ratio by, which is then 1 with no limits.
   * `not-converged`: the estimates are where the steps ended, not at the top.
   * `few-clusters`: robust errors rest on so few clusters that they are likely too small, or on one and are left out.
   * `no-overdispersion`: counts vary no more than Poisson counts do, whose limits are given.
   */
  readonly kind: 'constant' | 'collinear' | 'separation' | 'not-converged' | 'few-clusters' | 'no-overdispersion';
  readonly term: string | null;
  readonly message: string;
}

/** Warns of a column that differs only among rows whose rate is zero in the limit. */
export const unknownTerm = (term: string): RegressionWarning => {
  const message = `nothing is known of the ratio of ${term}, which differs only where no events are expected`;
  return { kind: 'separation', term, message };
};

/** Sandwich errors need some 40 clusters before they can be relied on (Cameron, Gelbach & Miller 2008). */
const FEW_CLUSTERS = 40;

/** Fewer than this many clusters say nothing of how clusters differ: their scores add up to nothing at the top. */
export const LEAST_CLUSTERS = 2;

/** Warns of robust errors that rest on few clusters, or are left out for want of them; null without clusters. */
export function clusterWarnings(clusters: number | null): RegressionWarning[] {
  if (clusters === null || clusters >= FEW_CLUSTERS) return [];
  const message =
    clusters < LEAST_CLUSTERS
      ? 'all rows are of one cluster, which says nothing of how clusters differ: no robust errors'
      : `robust errors rest on ${clusters} clusters only`;
  return [{ kind: 'few-clusters', term: null, message }];
}

export const chiSquareTest = (statistic: number, degreesOfFreedom: number): TestResult => ({
  statistic,
  degreesOfFreedom,
  pValue: chiSquareTail(statistic, degreesOfFreedom),
});

/** vᵀ A⁻¹ v over the listed components; null when that part of A is singular. */
export function quadraticForm(
  a: Float64Array,
  width: number,
  v: ArrayLike<number>,
  components: readonly number[],
): number | null {
  const part = subMatrix(a, width, components);
  const factor = cholesky(part, components.length, 1e-13);
  if (choleskyFailed(factor)) return null;
  const chosen = components.map((j) => v[j] as number);
  return solveCholesky(factor, chosen).reduce((sum, value, index) => sum + value * (chosen[index] as number), 0);
}

/** Rows and columns `components` of a row-major width × width matrix. */
export function subMatrix(a: Float64Array, width: number, components: readonly number[]): Float64Array {
  const size = components.length;
  const part = new Float64Array(size * size);
  components.forEach((j, row) =>
    components.forEach((k, column) => (part[row * size + column] = a[j * width + k] as number)),
  );
  return part;
}

/** Inverse of the part of a row-major width × width matrix over `components`, zero elsewhere; null when that is singular. */
export function inverseOver(a: Float64Array, width: number, components: readonly number[]): Float64Array | null {
  const size = components.length;
  const factor = cholesky(subMatrix(a, width, components), size, 1e-14);
  if (choleskyFailed(factor)) return null;
  const part = invertCholesky(factor);
  const inverse = new Float64Array(width * width);
  components.forEach((row, i) =>
    components.forEach((column, j) => (inverse[row * width + column] = part[i * size + j] as number)),
  );
  return inverse;
}

/**
 * Columns of an information matrix that carry something of their own, in order, and the rest with
 * the reason. `floor` is what counts as nothing at all on the diagonal.
 */
export function independentColumns(
  information: Float64Array,
  width: number,
  floor: number,
): { kept: number[]; reasons: Map<number, 'constant' | 'collinear'> } {
  const kept: number[] = [];
  const reasons = new Map<number, 'constant' | 'collinear'>();
  for (let j = 0; j < width; j++) {
    if (!((information[j * width + j] as number) > floor)) reasons.set(j, 'constant');
    else if (choleskyFailed(cholesky(subMatrix(information, width, [...kept, j]), kept.length + 1, 1e-10)))
      reasons.set(j, 'collinear');
    else kept.push(j);
  }
  return { kept, reasons };
}
