import { BLOCK, blockSlopes, newBlockSlopes, type BlockSlopes } from './log-life-block.ts';
import type { LogLifeDistribution } from './log-life-distribution.ts';
import { linearPredictors, unfold, type LifeDesign } from './log-life-likelihood.ts';
import type { LifeRows } from './life-rows.ts';
import { addWeightedProducts, mirrorLower } from './numeric/weighted-products.ts';
import { LEAST_CLUSTERS } from './regression-result.ts';
import type { Codes } from './survival-data.ts';

/** Σ over clusters of (Σ w ∇l)(Σ w ∇l)ᵀ in (γ, α): the meat of the sandwich, row-major; null under two clusters. */
export function clusterMeat(
  rows: LifeRows,
  distribution: LogLifeDistribution,
  theta: Float64Array,
  design: LifeDesign | null,
): Float64Array | null {
  if (!rows.cluster || rows.cluster.count < LEAST_CLUSTERS) return null;
  const start = startOfClusters(rows.cluster);
  const records = recordsByCluster(rows, rows.cluster, start, distribution, theta, design);
  const meat = new Float64Array(theta.length ** 2);
  addClusters(meat, theta.length, start, design, records);
  return mirrorLower(meat, theta.length);
}

/** Where the rows of each cluster begin when they are put in the order of their clusters. */
function startOfClusters({ codes, count }: Codes): Uint32Array {
  const start = new Uint32Array(count + 1);
  for (let row = 0; row < codes.length; row++) {
    const code = codes[row] as number;
    start[code + 1] = (start[code + 1] as number) + 1;
  }
  for (let code = 1; code <= count; code++) start[code] = (start[code] as number) + (start[code - 1] as number);
  return start;
}

/** Of each row ∂l/∂η, ∂l/∂α and its design row, side by side: each record is put down once where one line of cache is fetched. */
const RECORD = 3;

function recordsByCluster(
  rows: LifeRows,
  { codes }: Codes,
  start: Uint32Array,
  { terms, fixedAlpha }: LogLifeDistribution,
  theta: Float64Array,
  design: LifeDesign | null,
): Float64Array {
  const records = new Float64Array(RECORD * rows.size);
  const next = start.slice();
  const block = newBlockSlopes();
  const pattern = design?.pattern ?? null;
  const patternEta = new Float64Array(pattern && design ? design.count : 0);
  if (pattern) linearPredictors(design, theta, 0, patternEta.length, patternEta);
  for (let from = 0; from < rows.size; from += BLOCK) {
    const to = Math.min(rows.size, from + BLOCK);
    if (pattern) unfold(patternEta, pattern, block.eta, from, to);
    else linearPredictors(design, theta, from, to, block.eta);
    blockSlopes(rows, terms, from, to, fixedAlpha ?? (theta[theta.length - 1] as number), block);
    putRecords(records, next, codes, pattern, block, from, to);
  }
  return records;
}

function putRecords(
  records: Float64Array,
  next: Uint32Array,
  codes: Int32Array,
  pattern: Int32Array | null,
  { slope, alphaSlope }: BlockSlopes,
  from: number,
  to: number,
): void {
  for (let row = from; row < to; row++) {
    const code = codes[row] as number;
    const place = next[code] as number;
    next[code] = place + 1;
    const at = RECORD * place;
    records[at] = slope[row - from] as number;
    records[at + 1] = alphaSlope[row - from] as number;
    records[at + 2] = pattern ? (pattern[row] as number) : row;
  }
}

/** Clusters whose sums stand in the nearest cache until their products are added. */
const TILE = 128;

/**
 * Cluster by cluster, the sums of one stay in cache while its records stream by; row by row the sums of a hundred
 * thousand clusters would be fetched from all over memory and put back.
 */
function addClusters(
  meat: Float64Array,
  n: number,
  start: Uint32Array,
  design: LifeDesign | null,
  records: Float64Array,
): void {
  const width = design?.width ?? 0;
  const table = design?.table ?? new Float64Array(0);
  const scores = new Float64Array(TILE * n);
  const clusters = start.length - 1;
  for (let first = 0; first < clusters; first += TILE) {
    const tile = Math.min(TILE, clusters - first);
    scores.fill(0);
    for (let cluster = 0; cluster < tile; cluster++)
      addRecords(
        scores,
        cluster * n,
        n,
        table,
        width,
        records,
        start[first + cluster] as number,
        start[first + cluster + 1] as number,
      );
    addWeightedProducts(meat, scores, n, tile, null, 1);
  }
}

/** Adds the scores of the records from `first` to before `end` at `at`; α's is the last of n, if it has a place. */
function addRecords(
  scores: Float64Array,
  at: number,
  n: number,
  table: Float64Array,
  width: number,
  records: Float64Array,
  first: number,
  end: number,
): void {
  let total = 0;
  let alpha = 0;
  for (let k = RECORD * first; k < RECORD * end; k += RECORD) {
    const slope = records[k] as number;
    total += slope;
    alpha += records[k + 1] as number;
    const cell = (records[k + 2] as number) * width;
    for (let j = 0; j < width; j++)
      scores[at + 1 + j] = (scores[at + 1 + j] as number) + slope * (table[cell + j] as number);
  }
  scores[at] = total;
  if (n > width + 1) scores[at + n - 1] = alpha;
}
