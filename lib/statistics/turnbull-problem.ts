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
}

/** Innermost intervals (Turnbull 1976; entries count as ends, Frydman 1994) and the likelihood over them. */
export function turnbullProblem(spans: Spans): TurnbullProblem {
  const size = spans.lower.length;
  const { from, to, start, lower, upper } = innermost(spans);
  const weightOf = (row: number) => (spans.weight ? (spans.weight[row] as number) : 1);
  const count = lower.length;
  const step = new Float64Array(count + 1);
  let all = 0;
  for (let row = 0; row < size; row++) {
    const [w, begin, first] = [weightOf(row), start[row] as number, from[row] as number];
    step[begin] = (step[begin] as number) + w;
    step[first] = (step[first] as number) - w;
    all += w;
  }
  const cost = new Float64Array(count);
  let passing = 0;
  // Sums and differences of fractional weights leave dust where nobody is left.
  for (let j = 0; j < count; j++) cost[j] = (passing += step[j] as number) > 1e-12 * all ? passing : 0;
  const last = endOfMass(cost, from, to);
  const [reaching, entering] = [new Float64Array(last + 1), new Float64Array(last + 1)];
  for (let row = 0; row < size; row++) {
    const [w, begin, first] = [weightOf(row), start[row] as number, from[row] as number];
    if (begin <= last) entering[begin] = (entering[begin] as number) + w;
    if (first <= last && (to[row] as number) >= last) reaching[first] = (reaching[first] as number) + w;
  }
  const total = entering.reduce((sum, w) => sum + w, 0);
  return { lower, upper, cost, last, reaching, entering, total, ...distinctSets(from, to, weightOf, last) };
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
    const [begin, end] = [from[row] as number, (to[row] as number) + 1];
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
 * One pass over all end points in order. At one time exact lives begin first, then spans end and
 * lives enter, then spans open to the left begin: (a, b] and (b, c] do not meet, b is in (a, b].
 */
function innermost({ lower, upper, entry }: Spans) {
  const size = lower.length;
  const late = entry ? Uint32Array.from(entry.keys()).filter((row) => (entry[row] as number) > 0) : new Uint32Array(0);
  const points = endPoints(lower, upper, entry, late);
  const [from, to, start] = [new Int32Array(size), new Int32Array(size), new Int32Array(size)];
  const [left, right]: [number[], number[]] = [[], []];
  let open: number | null = null;
  for (const place of sortOrder(points.time)) {
    const row = points.row[place] as number;
    const time = points.time[place] as number;
    if (points.kind[place] === BEGIN) {
      from[row] = left.length;
      open = time;
      continue;
    }
    if (open !== null) {
      left.push(open);
      right.push(time);
      open = null;
    }
    if (points.kind[place] === END) to[row] = left.length - 1;
    else start[row] = left.length;
  }
  return { from, to, start, lower: Float64Array.from(left), upper: Float64Array.from(right) };
}

const BEGIN = 0;
const END = 1;
const ENTRY = 2;

/** All end points, in the order in which those of one time follow each other; the sort is stable. */
function endPoints(lower: Float64Array, upper: Float64Array, entry: Float64Array | null, late: Uint32Array) {
  const size = lower.length;
  const count = 2 * size + late.length;
  const points = { time: new Float64Array(count), row: new Uint32Array(count), kind: new Uint8Array(count) };
  let at = 0;
  const put = (time: number, row: number, kind: number) => {
    points.time[at] = time;
    points.row[at] = row;
    points.kind[at++] = kind;
  };
  for (let row = 0; row < size; row++) if (lower[row] === upper[row]) put(lower[row] as number, row, BEGIN);
  for (let row = 0; row < size; row++) put(upper[row] as number, row, END);
  for (const row of late) put(entry?.[row] as number, row, ENTRY);
  for (let row = 0; row < size; row++) if (lower[row] !== upper[row]) put(lower[row] as number, row, BEGIN);
  return points;
}

/** Rows with the same set of intervals become one of their summed weight. */
function distinctSets(from: Int32Array, to: Int32Array, weightOf: (row: number) => number, last: number) {
  const rows: number[] = [];
  for (let row = 0; row < from.length; row++) if ((to[row] as number) < last) rows.push(row);
  const key = Float64Array.from(rows, (row) => (from[row] as number) * (last + 1) + (to[row] as number));
  const sets = { from: [] as number[], to: [] as number[], weight: [] as number[] };
  let before = -1;
  for (const place of sortOrder(key)) {
    const row = rows[place] as number;
    if (key[place] !== before) {
      before = key[place] as number;
      sets.from.push(from[row] as number);
      sets.to.push(to[row] as number);
      sets.weight.push(0);
    }
    const end = sets.weight.length - 1;
    sets.weight[end] = (sets.weight[end] as number) + weightOf(row);
  }
  return { from: Int32Array.from(sets.from), to: Int32Array.from(sets.to), weight: Float64Array.from(sets.weight) };
}
