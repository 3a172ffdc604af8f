import type { CutCodes } from '../columns/cut-codes.ts';
import { placeOfValue } from '../group-order.ts';

/** Levels with fewer failures than this say too little for a ratio of their own, and are put together. */
export const leastLevelFailures = 5;

/** Whole numbers in order: a sparse one joins its neighbour, not a mixed rest. */
const inOrder = new Set(['install_year', 'life_number', 'prior_failures', 'axle']);

/** A column of an adjusted model, the level with most failures first as the reference. */
export interface PooledLevels extends CutCodes {
  /** Labels that were put together, by the label they now stand under. */
  readonly pooled: ReadonlyMap<string, readonly string[]>;
}

interface Pool {
  label: string;
  readonly labels: string[];
  failures: number;
}

/** Levels that occur, by failures; `unknown` is a level of its own however few. */
export function pooledLevels(column: string, cut: CutCodes, rows: Int32Array, event: ArrayLike<number>): PooledLevels {
  const lives = new Float64Array(cut.levels.length);
  const failures = new Float64Array(cut.levels.length);
  for (let at = 0; at < rows.length; at++) {
    const code = cut.codes[rows[at] as number] as number;
    lives[code] = (lives[code] as number) + 1;
    if (event[at] === 1) failures[code] = (failures[code] as number) + 1;
  }
  const found = cut.levels
    .map((label, code): Pool => ({ label, labels: [label], failures: failures[code] as number }))
    .filter((_, code) => (lives[code] as number) > 0);
  const known = found.filter(({ label }) => label !== 'unknown');
  const pools = [
    ...(inOrder.has(column) ? neighboursPooled(column, known) : restPooled(known)),
    ...found.filter(({ label }) => label === 'unknown'),
  ].sort((a, b) => b.failures - a.failures || (a.label < b.label ? -1 : 1));
  const poolOf = new Map(pools.flatMap(({ labels }, place) => labels.map((label) => [label, place] as const)));
  const placeOf = Int32Array.from(cut.levels, (label) => poolOf.get(label) ?? -1);
  const codes = new Int32Array(rows.length);
  for (let at = 0; at < rows.length; at++) codes[at] = placeOf[cut.codes[rows[at] as number] as number] as number;
  return {
    levels: pools.map(({ label }) => label),
    codes,
    pooled: new Map(pools.filter(({ labels }) => labels.length > 1).map(({ label, labels }) => [label, labels])),
  };
}

const isSparse = ({ failures }: Pool): boolean => failures < leastLevelFailures;

function restPooled(pools: readonly Pool[]): readonly Pool[] {
  const sparse = pools.filter(isSparse);
  if (sparse.length < 2) return pools;
  const rest = {
    label: 'other',
    labels: sparse.flatMap(({ labels }) => labels),
    failures: sparse.reduce((sum, { failures }) => sum + failures, 0),
  };
  return [...pools.filter((pool) => !isSparse(pool) && pool.label !== 'other'), ...merged(pools, rest)];
}

/** A level that is itself called `other` takes the rest in. */
function merged(pools: readonly Pool[], rest: Pool): Pool[] {
  const named = pools.find((pool) => pool.label === 'other' && !isSparse(pool));
  if (!named) return [rest];
  return [{ label: 'other', labels: [...named.labels, ...rest.labels], failures: named.failures + rest.failures }];
}

function neighboursPooled(column: string, pools: readonly Pool[]): readonly Pool[] {
  const ordered = [...pools].sort((a, b) => placeOfValue(column, a.label) - placeOfValue(column, b.label));
  const joined: Pool[] = [];
  for (const pool of ordered) {
    const last = joined.at(-1);
    if (last && isSparse(last)) join(last, pool);
    else joined.push({ ...pool, labels: [...pool.labels] });
  }
  const [last, before] = [joined.at(-1), joined.at(-2)];
  if (last && before && isSparse(last)) {
    join(before, last);
    joined.pop();
  }
  return joined;
}

function join(into: Pool, pool: Pool): void {
  into.labels.push(...pool.labels);
  into.failures += pool.failures;
  into.label = `${into.labels[0]} to ${into.labels.at(-1)}`;
}
