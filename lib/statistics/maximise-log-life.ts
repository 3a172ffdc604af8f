import { newBlockSlopes, blockSlopes, logLifeLikelihood } from './log-life-likelihood.ts';
import type { LogLifeDistribution } from './log-life-distribution.ts';
import { INTERVAL, LEFT, RIGHT, type LifeRows } from './life-rows.ts';
import { maximise, type Maximum } from './numeric/maximise.ts';

/** Shapes below this are taken for a likelihood that climbs towards zero shape and has no maximum. */
export const LEAST_ALPHA = 0.005;

/** The maximum over (γ, α), or over γ alone where α is fixed; no covariates. */
export function maximiseLogLife(rows: LifeRows, distribution: LogLifeDistribution): Maximum {
  const { fixedAlpha, terms } = distribution;
  const evaluate = logLifeLikelihood(rows, terms, null, { fixedAlpha });
  const inside = (theta: Float64Array) => fixedAlpha !== null || (theta[1] as number) > 0;
  let best: Maximum | null = null;
  for (const factor of [1, 0.4, 2.5, 0.1]) {
    const result = maximise(evaluate, startLogLife(rows, distribution, factor), { inside });
    if (result.converged) return result;
    if (best === null || result.evaluation.value > best.evaluation.value) best = result;
  }
  return best as Maximum;
}

/** Start values from the spread of the failures' log lives, and the level at which the failure count comes out right. */
function startLogLife(rows: LifeRows, distribution: LogLifeDistribution, factor: number): number[] {
  const { kind, log, logEntry, weight } = rows;
  const w = (row: number) => (weight ? (weight[row] as number) : 1);
  let [mean, square] = [0, 0];
  for (let row = 0; row < rows.size; row++)
    if (kind[row] !== RIGHT) mean += (w(row) * middle(rows, row)) / rows.failedWeight;
  for (let row = 0; row < rows.size; row++)
    if (kind[row] !== RIGHT) square += (w(row) * (middle(rows, row) - mean) ** 2) / rows.failedWeight;
  const plain = square > 0 ? distribution.spread / Math.sqrt(square) : 3;
  const alpha = distribution.fixedAlpha ?? factor * Math.min(Math.max(plain, 0.2), 12);
  const largest = log.reduce((a, b) => Math.max(a, b), -Infinity);
  let hazard = 0;
  for (let row = 0; row < rows.size; row++) {
    const before = logEntry ? Math.exp(alpha * ((logEntry[row] as number) - largest)) : 0;
    hazard += w(row) * (Math.exp(alpha * (middle(rows, row) - largest)) - before);
  }
  // γ with Σ e^z = failures: exact for exponential lives, and a sane level for all others.
  const gamma = alpha * largest + Math.log(Math.max(hazard, 1e-12 * rows.totalWeight) / rows.failedWeight);
  return distribution.fixedAlpha === null ? [gamma, alpha] : [gamma];
}

function middle({ kind, log, logLower }: LifeRows, row: number): number {
  const at = log[row] as number;
  if (kind[row] === LEFT) return at - Math.LN2;
  return kind[row] === INTERVAL ? (at + ((logLower as Float64Array)[row] as number)) / 2 : at;
}

/** Σ over clusters of (Σ w ∇l)(Σ w ∇l)ᵀ in (γ, α): the meat of the sandwich, row-major. */
export function clusterScores(
  rows: LifeRows,
  distribution: LogLifeDistribution,
  theta: Float64Array,
): Float64Array | null {
  if (!rows.cluster) return null;
  const n = theta.length;
  const alpha = distribution.fixedAlpha ?? (theta[1] as number);
  const scores = new Float64Array(rows.cluster.levels.length * n);
  const block = newBlockSlopes();
  const width = block.eta.length;
  for (let from = 0; from < rows.size; from += width) {
    const to = Math.min(rows.size, from + width);
    block.eta.fill(theta[0] as number);
    blockSlopes(rows, distribution.terms, from, to, alpha, block);
    for (let row = from; row < to; row++) {
      const at = (rows.cluster.codes[row] as number) * n;
      scores[at] = (scores[at] as number) + (block.slope[row - from] as number);
      if (n > 1) scores[at + 1] = (scores[at + 1] as number) + (block.alphaSlope[row - from] as number);
    }
  }
  return crossProduct(scores, n);
}

/** XᵀX of row-major X with n columns. */
export function crossProduct(x: Float64Array, n: number): Float64Array {
  const product = new Float64Array(n * n);
  for (let at = 0; at < x.length; at += n)
    for (let row = 0; row < n; row++)
      for (let column = 0; column < n; column++)
        product[row * n + column] =
          (product[row * n + column] as number) + (x[at + row] as number) * (x[at + column] as number);
  return product;
}
