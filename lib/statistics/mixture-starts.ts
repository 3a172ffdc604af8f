import { LEFT, RIGHT, type LifeRows } from './life-rows.ts';
import { logLifeLikelihood } from './log-life-likelihood.ts';
import { extremeValueTerms } from './log-life-terms.ts';
import { earlyShares } from './mixture-likelihood.ts';
import { maximise } from './numeric/maximise.ts';

/** Shapes outside are a part collapsing on a few equal lives, or none at all; real ones lie between 0.2 and 12. */
export const SHAPE_RANGE = { least: 0.05, most: 25 } as const;

/** Shares of the failures at which the early part is taken to end, one start each. */
const CUTS = [0.1, 0.25, 0.5, 0.75];
const STEPS = 15;

/** At most this many failed and running rows are looked at for starts. */
const SAMPLE = 1500;

/** Every k-th failed and every m-th running row, their weights raised to make up for the rest; the rows themselves when few. */
export function thinRows(rows: LifeRows): LifeRows {
  const failed: number[] = [];
  const running: number[] = [];
  for (let row = 0; row < rows.size; row++) (rows.kind[row] === RIGHT ? running : failed).push(row);
  if (failed.length <= SAMPLE && running.length <= SAMPLE) return rows;
  const keep: number[] = [];
  const weight: number[] = [];
  for (const list of [failed, running]) {
    const step = Math.max(1, list.length / SAMPLE);
    for (let place = 0; place < list.length; place += step) {
      const row = list[Math.floor(place)] as number;
      keep.push(row);
      weight.push(step * (rows.weight ? (rows.weight[row] as number) : 1));
    }
  }
  const pick = (values: Float64Array) => Float64Array.from(keep, (row) => values[row] as number);
  return {
    ...rows,
    size: keep.length,
    kind: Uint8Array.from(keep, (row) => rows.kind[row] as number),
    log: pick(rows.log),
    logLower: rows.logLower && pick(rows.logLower),
    logEntry: rows.logEntry && pick(rows.logEntry),
    weight: Float64Array.from(weight),
    source: null,
    cluster: null,
  };
}

/** Starts for the mixture: expectation–maximisation from failures split early and late at several times. */
export function mixtureStarts(rows: LifeRows, single: { gamma: number; alpha: number }): Float64Array[] {
  const times = Array.from(rows.log)
    .filter((_, row) => rows.kind[row] !== RIGHT)
    .sort((a, b) => a - b);
  const unseen = withUnseen(rows);
  return CUTS.map((share) => {
    const cut = times[Math.floor(share * times.length)] as number;
    const end = rows.log.map((y, row) => (rows.kind[row] === RIGHT ? 0.3 * share : y <= cut ? 0.95 : 0.05));
    const entry = rows.logEntry && new Float64Array(rows.size).fill(0.3 * share);
    const start = Float64Array.of(0, single.gamma, Math.log(single.alpha), single.gamma, Math.log(single.alpha));
    let theta = partsFrom(unseen, start, { end, entry }, 20);
    for (let step = 0; step < STEPS; step++) theta = partsFrom(unseen, theta, earlyShares(rows, theta), 2);
    return theta;
  });
}

/** Rows, and after them one for the lives that each late entry did not let be seen: found failed by it. */
interface UnseenRows {
  readonly rows: LifeRows;
  readonly whole: LifeRows;
  /** Weights of `whole`, filled anew for each part. */
  readonly weight: Float64Array;
  readonly late: Int32Array;
}

function withUnseen(rows: LifeRows): UnseenRows {
  const late = Int32Array.from(rows.kind.keys()).filter((row) => (rows.logEntry?.[row] ?? -Infinity) > -Infinity);
  const entries = Array.from(late, (row) => rows.logEntry?.[row] as number);
  const weight = new Float64Array(rows.size + late.length);
  const whole: LifeRows = {
    ...rows,
    size: weight.length,
    kind: Uint8Array.from([...rows.kind, ...entries.map(() => LEFT)]),
    log: Float64Array.from([...rows.log, ...entries]),
    logLower: rows.logLower && Float64Array.from([...rows.logLower, ...entries.map(() => 0)]),
    logEntry: null,
    weight,
    source: null,
    cluster: null,
  };
  return { rows, whole, weight, late };
}

/**
 * One maximisation given posterior shares. A late entry stands for the lives that ended unseen
 * before it: each part gets its expected number of them (the missing lives of Turnbull 1976 §3).
 */
function partsFrom(
  { rows, whole, weight, late }: UnseenRows,
  theta: Float64Array,
  { end, entry }: { end: Float64Array; entry: Float64Array | null },
  steps: number,
): Float64Array {
  const next = new Float64Array(5);
  const sums = [0, 0];
  const likelihood = logLifeLikelihood(whole, extremeValueTerms, null);
  const inside = (at: Float64Array) => (at[1] as number) > SHAPE_RANGE.least && (at[1] as number) < SHAPE_RANGE.most;
  for (const part of [0, 1]) {
    const [gamma, alpha] = [theta[1 + 2 * part] as number, Math.exp(theta[2 + 2 * part] as number)];
    const share = (early: number, row: number) =>
      (part === 0 ? early : 1 - early) * (rows.weight ? (rows.weight[row] as number) : 1);
    for (let row = 0; row < rows.size; row++) weight[row] = share(end[row] as number, row);
    late.forEach((row, k) => {
      // F / S at the entry; where next to none of the part could have lived till then it would run away.
      const odds = Math.min(Math.expm1(Math.exp(alpha * (rows.logEntry?.[row] as number) - gamma)), 1e3);
      weight[rows.size + k] = share(entry?.[row] as number, row) * odds;
    });
    sums[part] = weight.reduce((a, b) => a + b, 0);
    const top = maximise(likelihood, [gamma, alpha], { maxIterations: steps, inside }).parameters;
    next[1 + 2 * part] = top[0] as number;
    next[2 + 2 * part] = Math.log(top[1] as number);
  }
  next[0] = Math.min(8, Math.max(-8, Math.log((sums[0] as number) / (sums[1] as number))));
  return next;
}
