import { estimateCox } from './cox-estimate.ts';
import { evaluateCox } from './cox-likelihood.ts';
import { prepareCox } from './cox-prepare.ts';
import type { CoxProblem, Ties } from './cox-problem.ts';
import { clusterScores } from './cox-score.ts';
import type { RiskSums } from './cox-sweep.ts';
import { termOfLevel } from './design-matrix.ts';
import type { ExcessLives } from './excess-share-lives.ts';
import type { RegressionWarning } from './regression-result.ts';

/** The adjusted model that the share is read from, in centred and scaled coefficients. */
export interface ExcessFit {
  readonly problem: CoxProblem;
  readonly beta: Float64Array;
  /** Baseline hazard increment at each event time, at the centre of the covariates. */
  readonly hazard: Float64Array;
  /** The sums over the risk sets at these coefficients. */
  readonly sums: RiskSums;
  /** Columns of the problem by its terms. */
  readonly terms: readonly string[];
  /** Column of each level of the exposure in each piece, pieces × levels; −1 for none. */
  readonly effects: Int32Array;
  /** Change of each coefficient owed to each cluster, clusters × width (Lin & Wei 1989). */
  readonly influence: Float64Array;
  /** Cluster of each row that was cut. */
  readonly clusterOfRow: Int32Array;
  /** Clusters that the ratio rests on: fewest at risk when something failed, of the exposed or the others, in a piece. */
  readonly fewestClusters: number;
  /** Covariates left out of the adjustment. */
  readonly warnings: readonly RegressionWarning[];
}

/** Fits the model; a text says why it gives no answer. */
export function excessFit(lives: ExcessLives, ties: Ties): ExcessFit | string {
  const { split, cluster } = lives;
  const prepared = prepareCox(split, { ties });
  const { problem, terms, none } = prepared;
  const effects = effectColumns(lives, terms);
  if (typeof effects === 'string') return effects;
  const { fit, covariance } = estimateCox(prepared, {});
  if (!fit.converged) return `the adjusted model has no maximum after ${fit.iterations} iterations`;
  for (const column of effects)
    if (column >= 0 && !isBounded(covariance[column * problem.width + column] as number))
      return `nothing bounds the ratio of ${terms[column]}: none of these lives failed, or only they`;
  const { sums, information } = evaluateCox(problem, fit.beta, none.sums);
  information();
  const clusterOfRow = Int32Array.from(split.row, (row) => cluster.codes[row] as number);
  const scores = clusterScores(problem, sums, clusterOfRow, cluster.count);
  const influence = timesSymmetric(scores, covariance, problem.width);
  const { warnings } = prepared;
  const fewestClusters = clustersAtRisk(lives, problem, clusterOfRow);
  return {
    fewestClusters,
    problem,
    beta: fit.beta,
    hazard: sums.hazard,
    sums,
    terms,
    effects,
    influence,
    clusterOfRow,
    warnings,
  };
}

function clustersAtRisk(lives: ExcessLives, { sets }: CoxProblem, clusterOfRow: Int32Array): number {
  const { split, exposure, removed, cluster, pieces } = lives;
  const seen = new Uint8Array(2 * pieces.length * cluster.count);
  const counts = new Int32Array(2 * pieces.length);
  for (const row of sets.row) {
    const level = exposure.codes[split.row[row] as number] as number;
    const side = 2 * (split.piece[row] as number) + (removed[level] as number);
    const at = side * cluster.count + (clusterOfRow[row] as number);
    if (seen[at] === 0) counts[side] = (counts[side] as number) + 1;
    seen[at] = 1;
  }
  return Math.min(...counts);
}

/** The covariance of an infinite coefficient is left at zero. */
const isBounded = (variance: number): boolean => variance > 0 && variance < Infinity;

/** Where in the problem each effect stands; a text names one that the lives tell nothing of. */
function effectColumns({ pieces, exposure, removed }: ExcessLives, terms: readonly string[]): Int32Array | string {
  const columns = new Int32Array(pieces.length * exposure.levels.length).fill(-1);
  for (const [piece, name] of pieces.entries())
    for (let level = 1; level < exposure.levels.length; level++) {
      const term = termOfLevel(name, exposure.levels[level] as string);
      const column = terms.indexOf(term);
      if (column < 0 && removed[level] === 1)
        return `nothing can be told of ${term}: it never differs among lives at risk together, or goes with another covariate`;
      columns[piece * exposure.levels.length + level] = column;
    }
  return columns;
}

/** rows · matrix for a symmetric width × width matrix. */
function timesSymmetric(rows: Float64Array, matrix: Float64Array, width: number): Float64Array {
  const product = new Float64Array(rows.length);
  for (let from = 0; from < rows.length; from += width)
    for (let k = 0; k < width; k++) {
      const value = rows[from + k] as number;
      if (value === 0) continue;
      for (let j = 0; j < width; j++)
        product[from + j] = (product[from + j] as number) + value * (matrix[k * width + j] as number);
    }
  return product;
}
