import type { LogLifeTerms } from './log-life-terms.ts';
import { EXACT, INTERVAL, LEFT, RIGHT, type LifeRows } from './life-rows.ts';
import type { Evaluation } from './numeric/maximise.ts';

/** Columns of a regression, read in blocks so that nothing is copied; column 0 is the intercept and is implied. */
export interface LifeDesign {
  /** Columns beside the intercept. */
  readonly columns: number;
  /** Writes rows [from, to) of a column, as used in the fit, to the start of `target`. */
  fill(column: number, from: number, to: number, target: Float64Array): void;
}

/** Per-row derivatives over one block; the row's linear predictor is η, its log life z = α log t − η. */
export interface BlockSlopes {
  readonly eta: Float64Array;
  readonly slope: Float64Array;
  readonly curve: Float64Array;
  readonly cross: Float64Array;
  readonly alphaSlope: Float64Array;
  value: number;
  alphaCurve: number;
}

const BLOCK = 1024;

export const newBlockSlopes = (): BlockSlopes => {
  const [eta, slope, curve] = [new Float64Array(BLOCK), new Float64Array(BLOCK), new Float64Array(BLOCK)];
  return {
    eta,
    slope,
    curve,
    cross: new Float64Array(BLOCK),
    alphaSlope: new Float64Array(BLOCK),
    value: 0,
    alphaCurve: 0,
  };
};

/**
 * Value and derivatives of the log-likelihood of rows [from, to) given their η, in (η, α).
 * This form (Burridge 1981, JRSS B 43:41) makes the likelihood concave wherever no row enters late,
 * so that a stationary point is the maximum.
 */
export function blockSlopes(
  rows: LifeRows,
  terms: LogLifeTerms,
  from: number,
  to: number,
  alpha: number,
  block: BlockSlopes,
): void {
  const { kind, log, logEntry, logLower, weight } = rows;
  const { eta, slope, curve, cross, alphaSlope } = block;
  const out = new Float64Array(6);
  const logAlpha = Math.log(alpha);
  let [value, alphaCurve] = [0, 0];
  for (let row = from; row < to; row++) {
    const k = row - from;
    const y = log[row] as number;
    const shift = eta[k] as number;
    const z = alpha * y - shift;
    const type = kind[row];
    let [l, s, sy, c, cy, cyy] = [0, 0, 0, 0, 0, 0];
    if (type === INTERVAL) {
      const y1 = (logLower as Float64Array)[row] as number;
      const width = y - y1;
      terms.interval(z - alpha * width, z, out);
      l = out[0] as number;
      s = out[1] as number;
      sy = s * y1 + (out[2] as number) * width;
      c = out[3] as number;
      cy = c * y1 + (out[4] as number) * width;
      cyy = c * y1 * y1 + 2 * (out[4] as number) * y1 * width + (out[5] as number) * width * width;
    } else {
      if (type === EXACT) terms.exact(z, out);
      else if (type === RIGHT) terms.right(z, out);
      else if (type === LEFT) terms.left(z, out);
      l = out[0] as number;
      s = out[1] as number;
      c = out[2] as number;
      sy = s * y;
      cy = c * y;
      cyy = cy * y;
      if (type === EXACT) {
        l += logAlpha;
        sy += 1 / alpha;
        cyy -= 1 / (alpha * alpha);
      }
    }
    const y0 = logEntry ? (logEntry[row] as number) : -Infinity;
    if (y0 !== -Infinity) {
      terms.right(alpha * y0 - shift, out);
      const [first, second] = [out[1] as number, out[2] as number];
      l -= out[0] as number;
      s -= first;
      sy -= first * y0;
      c -= second;
      cy -= second * y0;
      cyy -= second * y0 * y0;
    }
    const w = weight ? (weight[row] as number) : 1;
    value += w * l;
    alphaCurve += w * cyy;
    slope[k] = -w * s;
    alphaSlope[k] = w * sy;
    curve[k] = w * c;
    cross[k] = -w * cy;
  }
  block.value = value;
  block.alphaCurve = alphaCurve;
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
  const columns = design?.columns ?? 0;
  const free = fixedAlpha === null ? 1 : 0;
  const n = 1 + columns + free;
  const block = newBlockSlopes();
  const x = Array.from({ length: columns }, () => new Float64Array(BLOCK));
  const curved = new Float64Array(BLOCK);
  return (theta) => {
    const alpha = fixedAlpha ?? (theta[n - 1] as number);
    const gradient = new Float64Array(n);
    const hessian = new Float64Array(n * n);
    let value = 0;
    for (let from = 0; from < rows.size; from += BLOCK * stride) {
      const to = Math.min(rows.size, from + BLOCK);
      const length = to - from;
      block.eta.fill(theta[0] as number, 0, length);
      for (let j = 0; j < columns; j++) {
        const column = x[j] as Float64Array;
        design?.fill(j, from, to, column);
        addMultiple(block.eta, theta[j + 1] as number, column, length);
      }
      blockSlopes(rows, terms, from, to, alpha, block);
      value += block.value;
      accumulate(block, x, curved, length, n, free, gradient, hessian);
    }
    for (let row = 0; row < n; row++)
      for (let column = 0; column < row; column++) hessian[row * n + column] = hessian[column * n + row] as number;
    return { value, gradient, hessian };
  };
}

/** Adds a block to the gradient and to the upper triangle of the Hessian. */
function accumulate(
  block: BlockSlopes,
  x: readonly Float64Array[],
  curved: Float64Array,
  length: number,
  n: number,
  free: number,
  gradient: Float64Array,
  hessian: Float64Array,
): void {
  const { slope, curve, cross, alphaSlope } = block;
  const add = (array: Float64Array, at: number, amount: number) => (array[at] = (array[at] as number) + amount);
  add(gradient, 0, sum(slope, length));
  add(hessian, 0, sum(curve, length));
  if (free) {
    add(gradient, n - 1, sum(alphaSlope, length));
    add(hessian, n - 1, sum(cross, length));
    add(hessian, n * n - 1, block.alphaCurve);
  }
  for (let j = 0; j < x.length; j++) {
    const column = x[j] as Float64Array;
    for (let k = 0; k < length; k++) curved[k] = (curve[k] as number) * (column[k] as number);
    add(gradient, j + 1, inner(slope, column, length));
    add(hessian, j + 1, sum(curved, length));
    if (free) add(hessian, (j + 1) * n + n - 1, inner(cross, column, length));
    for (let i = j; i < x.length; i++) add(hessian, (j + 1) * n + i + 1, inner(curved, x[i] as Float64Array, length));
  }
}

function addMultiple(target: Float64Array, factor: number, column: Float64Array, length: number): void {
  for (let k = 0; k < length; k++) target[k] = (target[k] as number) + factor * (column[k] as number);
}

function sum(values: Float64Array, length: number): number {
  let total = 0;
  for (let k = 0; k < length; k++) total += values[k] as number;
  return total;
}

function inner(a: Float64Array, b: Float64Array, length: number): number {
  let total = 0;
  for (let k = 0; k < length; k++) total += (a[k] as number) * (b[k] as number);
  return total;
}
