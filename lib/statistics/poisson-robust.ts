import { cholesky, choleskyFailed, solveCholesky } from './numeric/cholesky.ts';
import { mirrorLower } from './numeric/weighted-products.ts';
import { productsOverTerms, type CountProblem } from './poisson-likelihood.ts';
import { independentColumns, subMatrix } from './regression-result.ts';
import type { Codes } from './survival-data.ts';

/** Coefficients with a cluster left out, as far as they are still told. */
export interface LeftOut {
  /** Σ over clusters of change · changeᵀ over γ, row-major; zero for the coefficients not estimated. */
  readonly products: Float64Array;
  /** Directions in γ of which one cluster alone tells: nothing but its own rows would change along them. */
  readonly alone: readonly Float64Array[];
}

/** What is left of a column's information without a cluster, as a share of all, below which it is rounding. */
const NOTHING_LEFT = 1e-9;

/**
 * One-step jackknife over clusters: each is left out in turn and the coefficients take one Newton step from where they
 * are, (I − I_g)⁻¹ s_g with I the information, I_g and s_g what the cluster adds to it and to the score (Mancl & DeRouen
 * 2001, Biometrics 57:126). The plain sandwich I⁻¹ s_g is too small where a cluster weighs much.
 *
 * @param slopes ∂l/∂η by row, weighted. @param curves minus ∂²l/∂η², likewise.
 */
export function leaveClustersOut(
  { rows, design }: CountProblem,
  slopes: Float64Array,
  curves: Float64Array,
  free: readonly number[],
): LeftOut {
  const n = design.width + 1;
  const cluster = rows.cluster as Codes;
  const whole = subMatrix(productsOverTerms(design, overPatterns(design, curves)), n, free);
  const products = new Float64Array(n * n);
  const alone: Float64Array[] = [];
  const { order, start } = rowsByCluster(cluster);
  const [score, own] = [new Float64Array(n), new Float64Array(n * n)];
  const x = new Float64Array(n).fill(1);
  for (let code = 0; code < cluster.count; code++) {
    score.fill(0);
    own.fill(0);
    for (let place = start[code] as number; place < (start[code + 1] as number); place++) {
      const row = order[place] as number;
      const k = design.pattern ? (design.pattern[row] as number) : row;
      for (let j = 1; j < n; j++) x[j] = design.table[k * (n - 1) + j - 1] as number;
      addRow(score, own, x, slopes[row] as number, curves[row] as number);
    }
    mirrorLower(own, n);
    const part = free.length === n ? own : subMatrix(own, n, free);
    const rest = whole.map((value, at) => value - (part[at] as number));
    const chosen = free.map((j) => score[j] as number);
    addProducts(products, n, free, withoutCluster(rest, whole, chosen, free, n, alone));
  }
  return { products, alone };
}

/** Sums over the rows of each design row. */
function overPatterns({ pattern, count }: CountProblem['design'], values: Float64Array): Float64Array {
  if (!pattern) return values;
  const sums = new Float64Array(count);
  values.forEach((value, row) => {
    const k = pattern[row] as number;
    sums[k] = (sums[k] as number) + value;
  });
  return sums;
}

/** score += slope · x; the lower triangle of own += curve · x xᵀ. */
function addRow(score: Float64Array, own: Float64Array, x: Float64Array, slope: number, curve: number): void {
  const n = x.length;
  for (let j = 0; j < n; j++) {
    score[j] = (score[j] as number) + slope * (x[j] as number);
    const weighed = curve * (x[j] as number);
    for (let i = 0; i <= j; i++) own[j * n + i] = (own[j * n + i] as number) + weighed * (x[i] as number);
  }
}

/** Change of the free coefficients; what is no longer told is left as it is and its directions added to `alone`. */
function withoutCluster(
  rest: Float64Array,
  whole: Float64Array,
  score: readonly number[],
  free: readonly number[],
  n: number,
  alone: Float64Array[],
): Float64Array {
  const size = free.length;
  const factor = cholesky(rest, size, 1e-10);
  const told = score.every((_, j) => (rest[j * size + j] as number) > NOTHING_LEFT * (whole[j * size + j] as number));
  if (told && !choleskyFailed(factor)) return solveCholesky(factor, score);
  const { kept } = independentColumns(withoutRounding(rest, whole, size), size, 0);
  for (let gone = 0; gone < size; gone++) {
    if (kept.includes(gone)) continue;
    const column = score.map((_, j) => -(rest[j * size + gone] as number));
    const direction = solveOver(rest, size, kept, column);
    direction[gone] = 1;
    const full = new Float64Array(n);
    free.forEach((j, index) => (full[j] = direction[index] as number));
    alone.push(full);
  }
  return solveOver(rest, size, kept, score);
}

/** Solution over some components, zero in the others. */
function solveOver(a: Float64Array, size: number, components: readonly number[], b: readonly number[]): Float64Array {
  const solution = new Float64Array(size);
  const factor = cholesky(subMatrix(a, size, components), components.length, 0);
  if (choleskyFailed(factor)) return solution;
  const solved = solveCholesky(
    factor,
    components.map((j) => b[j] as number),
  );
  components.forEach((j, index) => (solution[j] = solved[index] as number));
  return solution;
}

/** Diagonals of which rounding alone is left set to zero. */
function withoutRounding(rest: Float64Array, whole: Float64Array, size: number): Float64Array {
  const clean = rest.slice();
  for (let j = 0; j < size; j++) {
    const at = j * size + j;
    if (!((rest[at] as number) > NOTHING_LEFT * (whole[at] as number))) clean[at] = 0;
  }
  return clean;
}

function addProducts(products: Float64Array, n: number, free: readonly number[], change: Float64Array): void {
  for (let i = 0; i < free.length; i++)
    for (let j = 0; j < free.length; j++) {
      const at = (free[i] as number) * n + (free[j] as number);
      products[at] = (products[at] as number) + (change[i] as number) * (change[j] as number);
    }
}

/** Rows in the order of their clusters, and where each cluster starts. */
function rowsByCluster({ count, codes }: Codes): { order: Int32Array; start: Int32Array } {
  const start = new Int32Array(count + 1);
  for (const code of codes) start[code + 1] = (start[code + 1] as number) + 1;
  for (let code = 0; code < count; code++) start[code + 1] = (start[code + 1] as number) + (start[code] as number);
  const next = start.slice();
  const order = new Int32Array(codes.length);
  codes.forEach((code, row) => {
    order[next[code] as number] = row;
    next[code] = (next[code] as number) + 1;
  });
  return { order, start };
}
