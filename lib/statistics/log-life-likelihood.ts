import { BLOCK, blockSlopes, newBlockSlopes, type BlockSlopes } from './log-life-block.ts';
import type { LifeRows } from './life-rows.ts';
import type { LogLifeTerms } from './log-life-terms.ts';
import { addColumnProducts, innerProduct } from './numeric/column-products.ts';
import type { Evaluation } from './numeric/maximise.ts';

/**
 * Covariates of a regression beside the intercept, which is implied: `table` holds design rows as
 * used in the fit, column after column, `count` each: one for each row of the lives or, where
 * `pattern` says which one a row has, one for each different row of covariates.
 */
export interface LifeDesign {
  readonly width: number;
  readonly count: number;
  readonly table: Float64Array;
  readonly pattern: Int32Array | null;
}

/**
 * Log-likelihood over all rows (or every `stride`-th block, for a start) at θ = (γ₀ … γ_p, α) with
 * η = γ₀ + Σ γ_j x_j; with `fixedAlpha` α is left out of θ (exponential lives: α = 1).
 * Times are in units of e^logUnit and the density is that of log t: add rows.logJacobian for time.
 */
export function logLifeLikelihood(
  rows: LifeRows,
  terms: LogLifeTerms,
  design: LifeDesign | null,
  { fixedAlpha = null, stride = 1 }: { fixedAlpha?: number | null; stride?: number } = {},
): (theta: Float64Array) => Evaluation {
  const n = 1 + (design?.width ?? 0) + (fixedAlpha === null ? 1 : 0);
  const block = newBlockSlopes();
  return (theta) => {
    const alpha = fixedAlpha ?? (theta[n - 1] as number);
    const sums = newSums(n, fixedAlpha === null);
    const pattern = design?.pattern ?? null;
    const folded = design && pattern ? newFolded(design, theta) : null;
    for (let from = 0; from < rows.size; from += BLOCK * stride) {
      const to = Math.min(rows.size, from + BLOCK);
      if (folded && pattern) unfold(folded.eta, pattern, block.eta, from, to);
      else linearPredictors(design, theta, from, to, block.eta);
      blockSlopes(rows, terms, from, to, alpha, block);
      sums.value += block.value;
      sums.alphaCurve += block.alphaCurve;
      sums.alphaSlope += total(block.alphaSlope, 0, to - from);
      if (folded && pattern) fold(folded, pattern, block, from, to);
      else addDesignRows(sums, design, block, from, 0, to - from);
    }
    if (folded)
      for (let from = 0; from < folded.eta.length; from += BLOCK)
        addDesignRows(sums, design, folded, from, from, Math.min(BLOCK, folded.eta.length - from));
    return finish(sums);
  };
}

/** η = γ₀ + Σ γ_j x_j of design rows [from, to), to the start of `eta`. */
export function linearPredictors(
  design: LifeDesign | null,
  theta: Float64Array,
  from: number,
  to: number,
  eta: Float64Array,
): void {
  eta.fill(theta[0] as number, 0, to - from);
  if (!design) return;
  const { table, count, width } = design;
  for (let j = 0; j < width; j++) {
    const gamma = theta[j + 1] as number;
    const column = j * count;
    for (let k = from; k < to; k++) eta[k - from] = (eta[k - from] as number) + gamma * (table[column + k] as number);
  }
}

interface Slopes {
  readonly slope: Float64Array;
  readonly curve: Float64Array;
  readonly cross: Float64Array;
}

/** Sums over the rows of each pattern, and each pattern's η. */
function newFolded(design: LifeDesign, theta: Float64Array): Slopes & { readonly eta: Float64Array } {
  const sums = () => new Float64Array(design.count);
  const eta = sums();
  linearPredictors(design, theta, 0, design.count, eta);
  return { slope: sums(), curve: sums(), cross: sums(), eta };
}

/** η of rows [from, to) from that of their patterns. */
export function unfold(
  patternEta: Float64Array,
  pattern: Int32Array,
  eta: Float64Array,
  from: number,
  to: number,
): void {
  for (let row = from; row < to; row++) eta[row - from] = patternEta[pattern[row] as number] as number;
}

function fold(
  { slope, curve, cross }: Slopes,
  pattern: Int32Array,
  block: BlockSlopes,
  from: number,
  to: number,
): void {
  for (let row = from; row < to; row++) {
    const at = pattern[row] as number;
    slope[at] = (slope[at] as number) + (block.slope[row - from] as number);
    curve[at] = (curve[at] as number) + (block.curve[row - from] as number);
    cross[at] = (cross[at] as number) + (block.cross[row - from] as number);
  }
}

interface Sums {
  readonly n: number;
  readonly free: boolean;
  value: number;
  alphaSlope: number;
  alphaCurve: number;
  readonly gradient: Float64Array;
  readonly hessian: Float64Array;
}

const newSums = (n: number, free: boolean): Sums => {
  const [gradient, hessian] = [new Float64Array(n), new Float64Array(n * n)];
  return { n, free, value: 0, alphaSlope: 0, alphaCurve: 0, gradient, hessian };
};

/** Adds design rows [first, first + length), their slopes at `at` and on, to the upper triangle over (γ, α). */
function addDesignRows(
  sums: Sums,
  design: LifeDesign | null,
  { slope, curve, cross }: Slopes,
  first: number,
  at: number,
  length: number,
): void {
  const { n, free, gradient, hessian } = sums;
  const last = n - 1;
  const add = (matrix: Float64Array, index: number, amount: number) =>
    (matrix[index] = (matrix[index] as number) + amount);
  add(gradient, 0, total(slope, at, length));
  add(hessian, 0, total(curve, at, length));
  if (free) add(hessian, last, total(cross, at, length));
  if (!design) return;
  const { table, count, width } = design;
  const part = (values: Float64Array) => (at === 0 ? values : values.subarray(at, at + length));
  const [slopes, curves, crosses] = [part(slope), part(curve), part(cross)];
  for (let j = 0; j < width; j++) {
    const column = j * count + first;
    add(gradient, j + 1, innerProduct(slopes, table, column, length));
    add(hessian, j + 1, innerProduct(curves, table, column, length));
    if (free) add(hessian, (j + 1) * n + last, innerProduct(crosses, table, column, length));
  }
  addColumnProducts(table, count, width, curves, first, length, hessian.subarray(n + 1), n);
}

function total(values: Float64Array, at: number, length: number): number {
  let sum = 0;
  for (let k = at; k < at + length; k++) sum += values[k] as number;
  return sum;
}

function finish({ n, free, value, alphaSlope, alphaCurve, gradient, hessian }: Sums): Evaluation {
  if (free) {
    gradient[n - 1] = alphaSlope;
    hessian[n * n - 1] = alphaCurve;
  }
  for (let row = 0; row < n; row++)
    for (let column = 0; column < row; column++) hessian[row * n + column] = hessian[column * n + row] as number;
  return { value, gradient, hessian };
}
