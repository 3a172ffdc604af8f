import type { CoxProblem } from './cox-problem.ts';
import { sortOrder } from './numeric/sort-order.ts';

/** How often, of two lives of which one is known to have failed first, the one with the higher risk score did. */
export interface Concordance {
  /** (concordant + tied in risk / 2) / comparable pairs; null when no pair can be compared. */
  readonly value: number | null;
  /** Infinitesimal-jackknife standard error, by cluster where clusters are given; null under two of them. */
  readonly standardError: number | null;
  readonly concordant: number;
  readonly discordant: number;
  readonly tiedRisk: number;
}

/**
 * Harrell's concordance of a linear predictor (by pattern) with the order of failure. A pair
 * counts within a stratum when one fails while the other, entered before, leaves later (censored
 * at that very time included); weights multiply. Fenwick trees over the ranks of the predictor
 * (Fenwick 1994) make it n log n. Source: Therneau & Atkinson, "Concordance" (survival package
 * vignette); Harrell et al. 1982, JAMA 247:2543. Outside check: the Cox cases of the reference pack.
 */
export function concordanceOf(
  problem: CoxProblem,
  predictor: Float64Array,
  clusterOf: ArrayLike<number> | null,
  clusters: number,
): Concordance {
  const { sets } = problem;
  const ranks = ranksAt(problem, predictor);
  const pairs = {
    higher: new Float64Array(sets.row.length),
    lower: new Float64Array(sets.row.length),
    same: new Float64Array(sets.row.length),
  };
  const tree = new RankTree(ranks.count);
  for (let stratum = 0; stratum < sets.strata.length; stratum++) {
    countSurvivors(problem, ranks.of, stratum, tree, pairs);
    tree.clear();
    countFailures(problem, ranks.of, stratum, tree, pairs);
    tree.clear();
  }
  return summarise(problem, pairs, clusterOf, clusters);
}

/** Weight of a position's partners: `higher` those with which it is concordant, `lower` discordant, `same` tied in risk. */
interface Pairs {
  readonly higher: Float64Array;
  readonly lower: Float64Array;
  readonly same: Float64Array;
}

function ranksAt({ pattern, offset }: CoxProblem, predictor: Float64Array): { of: Int32Array; count: number } {
  // Predictors that differ by rounding alone are one risk: sums of the same terms in another order.
  const values = offset
    ? offset.map((known, position) => known + (predictor[pattern[position] as number] as number))
    : predictor;
  const order = sortOrder(values);
  const rankOf = new Int32Array(values.length);
  let count = -1;
  let before = -Infinity;
  for (let place = 0; place < order.length; place++) {
    const k = order[place] as number;
    const value = values[k] as number;
    if (count < 0 || value - before > 1e-12 * Math.max(1, Math.abs(value))) count++;
    rankOf[k] = count;
    before = value;
  }
  if (offset) return { of: rankOf, count: count + 1 };
  const of = new Int32Array(pattern.length);
  for (let position = 0; position < of.length; position++) of[position] = rankOf[pattern[position] as number] as number;
  return { of, count: count + 1 };
}

/** Sums of weight below a rank, in log time; `clear` undoes what was added. */
class RankTree {
  /** While an instance lives the machine knows the class's layout, and what is compiled for it need not be compiled again. */
  static readonly layout = new RankTree(0);
  private readonly tree: Float64Array;
  private readonly at: Float64Array;
  /** Ranks to be cleared; beyond its room all are. */
  private readonly touched: Int32Array;
  private touches = 0;
  total = 0;

  constructor(size: number) {
    this.tree = new Float64Array(size + 1);
    this.at = new Float64Array(size);
    this.touched = new Int32Array(size >> 4);
  }

  add(rank: number, weight: number): void {
    if (this.at[rank] === 0) {
      if (this.touches < this.touched.length) this.touched[this.touches] = rank;
      this.touches++;
    }
    this.at[rank] = (this.at[rank] as number) + weight;
    this.total += weight;
    const { tree } = this;
    for (let node = rank + 1; node < tree.length; node += node & -node) tree[node] = (tree[node] as number) + weight;
  }

  same(rank: number): number {
    return this.at[rank] as number;
  }

  below(rank: number): number {
    let sum = 0;
    for (let node = rank; node > 0; node &= node - 1) sum += this.tree[node] as number;
    return sum;
  }

  clear(): void {
    const { tree, at, touched, touches } = this;
    this.total = this.touches = 0;
    if (touches > touched.length) {
      tree.fill(0);
      at.fill(0);
      return;
    }
    for (let index = 0; index < touches; index++) {
      const rank = touched[index] as number;
      at[rank] = 0;
      for (let node = rank + 1; node < tree.length; node += node & -node) tree[node] = 0;
    }
  }
}

const weightAt = (weight: Float64Array | null, position: number): number => (weight ? (weight[position] as number) : 1);

/** Backwards: for each event, those at risk that outlive it. */
function countSurvivors(
  { sets, weight }: CoxProblem,
  rank: Int32Array,
  stratum: number,
  tree: RankTree,
  pairs: Pairs,
): void {
  const start = sets.firstTime[stratum] as number;
  for (let time = (sets.firstTime[stratum + 1] as number) - 1; time >= start; time--) {
    const [from, to] = [sets.firstPosition[time] as number, sets.firstPosition[time + 1] as number];
    const alive = from + (sets.deaths[time] as number);
    for (let position = alive; position < to; position++)
      tree.add(rank[position] as number, weightAt(weight, position));
    for (let index = sets.firstLate[time] as number; index < (sets.firstLate[time + 1] as number); index++) {
      const position = sets.late[index] as number;
      tree.add(rank[position] as number, -weightAt(weight, position));
    }
    for (let position = from; position < alive; position++) {
      const r = rank[position] as number;
      const below = tree.below(r);
      const same = tree.same(r);
      pairs.higher[position] = (pairs.higher[position] as number) + below;
      pairs.same[position] = (pairs.same[position] as number) + same;
      pairs.lower[position] = (pairs.lower[position] as number) + tree.total - below - same;
    }
    for (let position = from; position < alive; position++)
      tree.add(rank[position] as number, weightAt(weight, position));
  }
}

/** Forwards: for each row, the events it outlived while at risk (those before its entry taken off). */
function countFailures(
  { sets, weight }: CoxProblem,
  rank: Int32Array,
  stratum: number,
  tree: RankTree,
  pairs: Pairs,
): void {
  const end = sets.firstTime[stratum + 1] as number;
  const count = (position: number, sign: number) => {
    const r = rank[position] as number;
    const below = tree.below(r);
    const same = tree.same(r);
    pairs.lower[position] = (pairs.lower[position] as number) + sign * below;
    pairs.same[position] = (pairs.same[position] as number) + sign * same;
    pairs.higher[position] = (pairs.higher[position] as number) + sign * (tree.total - below - same);
  };
  for (let time = sets.firstTime[stratum] as number; time < end; time++) {
    const [from, to] = [sets.firstPosition[time] as number, sets.firstPosition[time + 1] as number];
    const alive = from + (sets.deaths[time] as number);
    for (let position = from; position < alive; position++) count(position, 1);
    for (let position = from; position < alive; position++)
      tree.add(rank[position] as number, weightAt(weight, position));
    for (let position = alive; position < to; position++) count(position, 1);
    for (let index = sets.firstLate[time] as number; index < (sets.firstLate[time + 1] as number); index++)
      count(sets.late[index] as number, -1);
  }
}

function summarise(
  { sets, weight }: CoxProblem,
  pairs: Pairs,
  clusterOf: ArrayLike<number> | null,
  clusters: number,
): Concordance {
  let [concordant, discordant, tiedRisk] = [0, 0, 0];
  for (let position = 0; position < sets.row.length; position++) {
    const w = weightAt(weight, position);
    // Every pair is met twice, once from each side.
    concordant += (w * (pairs.higher[position] as number)) / 2;
    discordant += (w * (pairs.lower[position] as number)) / 2;
    tiedRisk += (w * (pairs.same[position] as number)) / 2;
  }
  const comparable = concordant + discordant + tiedRisk;
  if (!(comparable > 0)) return { value: null, standardError: null, concordant, discordant, tiedRisk };
  const value = (concordant + tiedRisk / 2) / comparable;
  const pull = new Float64Array(clusterOf ? clusters : sets.row.length);
  for (let position = 0; position < sets.row.length; position++) {
    const higher = pairs.higher[position] as number;
    const lower = pairs.lower[position] as number;
    const same = pairs.same[position] as number;
    const into = clusterOf ? (clusterOf[sets.row[position] as number] as number) : position;
    const change = higher + same / 2 - value * (higher + lower + same);
    pull[into] = (pull[into] as number) + (weightAt(weight, position) * change) / comparable;
  }
  const variance = pull.reduce((sum, change) => sum + change * change, 0);
  return { value, standardError: Math.sqrt(variance), concordant, discordant, tiedRisk };
}
