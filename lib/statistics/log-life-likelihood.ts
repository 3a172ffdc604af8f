import { BLOCK, blockSlopes, newBlockSlopes, type BlockSlopes } from './log-life-block.ts';
import type { LifeRows } from './life-rows.ts';
import type { LogLifeTerms } from './log-life-terms.ts';
import type { Evaluation } from './numeric/maximise.ts';
import { addWeightedProducts, addWeightedRows, withIntercept } from './numeric/weighted-products.ts';

/**
 * Covariates of a regression beside the intercept, which is implied: `table` holds design rows as
 * used in the fit, row-major count × width: one for each row of the lives or, where `pattern`
 * says which one a row has, one for each different row of covariates.
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
  if (!design) {
    eta.fill(theta[0] as number, 0, to - from);
    return;
  }
  const { table, width } = design;
  for (let k = from, at = from * width; k < to; k++) {
    let sum = theta[0] as number;
    for (let j = 1; j <= width; j++, at++) sum += (theta[j] as number) * (table[at] as number);
    eta[k - from] = sum;
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
  /** Σ curve and Σ curve · x_j, then the same of cross, and Σ curve · x xᵀ (lower triangle). */
  readonly curves: Float64Array;
  readonly crosses: Float64Array;
  readonly products: Float64Array;
}

const newSums = (n: number, free: boolean): Sums => {
  const size = free ? n - 1 : n;
  const room = () => new Float64Array(size);
  const products = new Float64Array((size - 1) ** 2);
  const sums = { gradient: new Float64Array(n), curves: room(), crosses: room(), products };
  return { n, free, value: 0, alphaSlope: 0, alphaCurve: 0, ...sums };
};

/** Adds design rows [first, first + length), their slopes at `at` and on. */
function addDesignRows(
  { free, gradient, curves, crosses, products }: Sums,
  design: LifeDesign | null,
  { slope, curve, cross }: Slopes,
  first: number,
  at: number,
  length: number,
): void {
  const add = (into: Float64Array, values: Float64Array) => {
    into[0] = (into[0] as number) + total(values, at, length);
    if (design) addWeightedRows(into.subarray(1), design.table, design.width, first, length, values, at);
  };
  add(gradient, slope);
  add(curves, curve);
  if (free) add(crosses, cross);
  if (!design) return;
  const { table, width } = design;
  const part = at === 0 ? curve : curve.subarray(at, at + length);
  addWeightedProducts(products, table.subarray(first * width), width, length, part, 1);
}

function total(values: Float64Array, at: number, length: number): number {
  let sum = 0;
  for (let k = at; k < at + length; k++) sum += values[k] as number;
  return sum;
}

function finish({ n, free, value, alphaSlope, alphaCurve, gradient, curves, crosses, products }: Sums): Evaluation {
  const size = curves.length;
  const overTerms = withIntercept(curves, products, size - 1);
  if (!free) return { value, gradient, hessian: overTerms };
  const hessian = new Float64Array(n * n);
  for (let row = 0; row < size; row++) {
    hessian.set(overTerms.subarray(row * size, (row + 1) * size), row * n);
    hessian[row * n + size] = hessian[size * n + row] = crosses[row] as number;
  }
  gradient[size] = alphaSlope;
  hessian[n * n - 1] = alphaCurve;
  return { value, gradient, hessian };
}
