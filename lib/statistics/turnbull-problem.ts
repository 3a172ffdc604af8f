import { sortOrder } from './numeric/sort-order.ts';

/** Rows as spans (lower, upper] in which lives ended, lower = upper for an exact life, on from `entry`. */
export interface Spans {
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  readonly entry: Float64Array | null;
  readonly weight: Float64Array | null;
}

/**
 * The non-parametric likelihood in cumulative-hazard increments x_j ≥ 0 over the innermost
 * intervals: −Σ c_j x_j + Σ_r h_r log(1 − exp(−Σ_{from_r ≤ j ≤ to_r} x_j)). A life that entered
 * late is conditioned on having lived till then, which in this form only leaves terms out of the
 * linear part: the problem is concave under truncation too.
 */
export interface TurnbullProblem {
  /** Ends of the innermost intervals (lower, upper], ascending; lower = upper for a single point. */
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** c: weight of the lives known to have passed through interval j while watched. */
  readonly cost: Float64Array;
  /** The interval that ends all lives at risk in it: what is left of the mass is there, and none in later ones. */
  readonly last: number;
  /** Distinct sets of intervals in which lives ended, those that reach `last` left out, with their weight h. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly weight: Float64Array;
  /** Weight of the lives that may have ended in `last`, by first interval of their set. */
  readonly reaching: Float64Array;
  /** Weight of lives by the interval from which they were watched, and of all that were up to `last`. */
  readonly entering: Float64Array;
  readonly total: number;
  /** Weight of all lives. */
  readonly subjects: number;
}

/** Innermost intervals (Turnbull 1976; entries count as ends, Frydman 1994) and the likelihood over them. */
export function turnbullProblem(spans: Spans): TurnbullProblem {
  const { weight } = spans;
  const size = spans.lower.length;
  const { from, to, start, lower, upper } = innermost(spans);
  const count = lower.length;
  const step = new Float64Array(count + 1);
  let all = 0;
  for (let row = 0; row < size; row++) {
    const w = weight ? (weight[row] as number) : 1;
    const begin = start ? (start[row] as number) : 0;
    const first = from[row] as number;
    step[begin] = (step[begin] as number) + w;
    step[first] = (step[first] as number) - w;
    all += w;
  }
  const cost = new Float64Array(count);
  let passing = 0;
  // Sums and differences of fractional weights leave dust where nobody is left.
  for (let j = 0; j < count; j++) cost[j] = (passing += step[j] as number) > 1e-12 * all ? passing : 0;
  const last = endOfMass(cost, from, to);
  const reaching = new Float64Array(last + 1);
  const entering = new Float64Array(last + 1);
  for (let row = 0; row < size; row++) {
    const w = weight ? (weight[row] as number) : 1;
    const begin = start ? (start[row] as number) : 0;
    const first = from[row] as number;
    if (begin <= last) entering[begin] = (entering[begin] as number) + w;
    if (first <= last && (to[row] as number) >= last) reaching[first] = (reaching[first] as number) + w;
  }
  const total = entering.reduce((sum, w) => sum + w, 0);
  const sets = distinctSets(from, to, weight, last);
  return { lower, upper, cost, last, reaching, entering, total, subjects: all, ...sets };
}

/**
 * The first interval that none passes though lives are known to have ended by it. One that none
 * passes because nobody was watched then (all had left, others not yet entered) says nothing: it gets
 * no mass and the curve stays flat, as the product-limit curve does.
 */
function endOfMass(cost: Float64Array, from: Int32Array, to: Int32Array): number {
  const count = cost.length;
  const ending = new Int32Array(count + 1);
  for (let row = 0; row < from.length; row++) {
    if ((to[row] as number) === count - 1) continue;
    const begin = from[row] as number;
    const end = (to[row] as number) + 1;
    ending[begin] = (ending[begin] as number) + 1;
    ending[end] = (ending[end] as number) - 1;
  }
  for (let j = 0, lives = 0; j < count - 1; j++) {
    lives += ending[j] as number;
    if (cost[j] === 0 && lives > 0) return j;
  }
  return count - 1;
}

/**
 * One pass over all end points in order. At one time exact lives begin first, then spans end and lives enter, then
 * spans open to the left begin: (a, b] and (b, c] do not meet, b is in (a, b]. Lives still running end after all.
 */
function innermost({ lower, upper, entry }: Spans) {
  const size = lower.length;
  const from = new Int32Array(size);
  const to = new Int32Array(size).fill(-1);
  const exact = pointsAt(lower, (row) => lower[row] === upper[row]);
  const ends = pointsAt(upper, (row) => (upper[row] as number) < Infinity);
  const entries = entry && pointsAt(entry, (row) => (entry[row] as number) > 0);
  const opens = pointsAt(lower, (row) => lower[row] !== upper[row]);
  const start = entries && new Int32Array(size);
  const found = new IntervalsFound(ends.rows.length + (entries ? entries.rows.length : 0) + 1);
  for (;;) {
    const now = Math.min(timeOf(exact), timeOf(ends), entries ? timeOf(entries) : Infinity, timeOf(opens));
    if (now === Infinity) break;
    for (; timeOf(exact) === now; exact.at++) from[exact.rows[exact.at] as number] = found.begin(now);
    for (; timeOf(ends) === now; ends.at++) to[ends.rows[ends.at] as number] = found.end(now) - 1;
    for (; entries && start && timeOf(entries) === now; entries.at++)
      start[entries.rows[entries.at] as number] = found.end(now);
    for (; timeOf(opens) === now; opens.at++) from[opens.rows[opens.at] as number] = found.begin(now);
  }
  for (let row = 0; row < size; row++) if ((to[row] as number) < 0) to[row] = found.end(Infinity) - 1;
  return { from, to, start, lower: found.lower.slice(0, found.count), upper: found.upper.slice(0, found.count) };
}

/** End points of one kind, ascending, and how far the pass has come. */
interface Points {
  readonly values: Float64Array;
  readonly rows: Uint32Array;
  at: number;
}

function pointsAt(values: Float64Array, of: (row: number) => boolean): Points {
  const rows = new Uint32Array(values.length);
  let count = 0;
  for (let row = 0; row < values.length; row++) if (of(row)) rows[count++] = row;
  return { values, rows: sortOrder(values, rows.subarray(0, count)), at: 0 };
}

const timeOf = ({ values, rows, at }: Points): number =>
  at < rows.length ? (values[rows[at] as number] as number) : Infinity;

/** An end with a beginning since the end before it closes an innermost interval. */
class IntervalsFound {
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  count = 0;
  private open = NaN;

  constructor(most: number) {
    this.lower = new Float64Array(most);
    this.upper = new Float64Array(most);
  }

  begin(time: number): number {
    this.open = time;
    return this.count;
  }

  end(time: number): number {
    if (!Number.isNaN(this.open)) {
      this.lower[this.count] = this.open;
      this.upper[this.count++] = time;
      this.open = NaN;
    }
    return this.count;
  }
}

/** Rows with the same set of intervals become one of their summed weight. */
function distinctSets(from: Int32Array, to: Int32Array, weight: Float64Array | null, last: number) {
  const ended = to.reduce((count, end) => count + (end < last ? 1 : 0), 0);
  const rows = new Uint32Array(ended);
  const key = new Float64Array(ended);
  for (let row = 0, at = 0; row < from.length; row++) {
    if ((to[row] as number) >= last) continue;
    rows[at] = row;
    key[at++] = (from[row] as number) * (last + 1) + (to[row] as number);
  }
  const order = sortOrder(key);
  const sets = { from: new Int32Array(ended), to: new Int32Array(ended), weight: new Float64Array(ended) };
  let count = 0;
  for (let place = 0; place < ended; place++) {
    const at = order[place] as number;
    const row = rows[at] as number;
    if (place === 0 || key[at] !== key[order[place - 1] as number]) {
      sets.from[count] = from[row] as number;
      sets.to[count++] = to[row] as number;
    }
    sets.weight[count - 1] = (sets.weight[count - 1] as number) + (weight ? (weight[row] as number) : 1);
  }
  return { from: sets.from.slice(0, count), to: sets.to.slice(0, count), weight: sets.weight.slice(0, count) };
}
