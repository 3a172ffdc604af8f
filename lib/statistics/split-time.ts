import { StatisticsError } from './statistics-error.ts';
import { toNumbers, type Covariates, type NumberColumn, type SurvivalData } from './survival-data.ts';
import { takeRows } from './take-rows.ts';

/** Survival data with every row cut at given times: what was one row is one for each piece it was under observation in. */
export interface SplitTime extends SurvivalData {
  readonly exit: Float64Array;
  readonly entry: Float64Array;
  readonly event: Float64Array;
  /** The row each comes from. */
  readonly row: Uint32Array;
  /** Which piece it lies in: 0 up to and with the first cut, 1 after it up to the second, and so on. */
  readonly piece: Int32Array;
  readonly cuts: Float64Array;
}

/**
 * Cuts rows at times: (entry, exit] becomes (entry, c₁], (c₁, c₂], … (cₖ, exit], with the event in
 * the last. No estimate of hazards changes by it; covariates may then differ from piece to piece
 * (see `covariateByPiece`: a ratio before and after a mileage) and so may rates (a piecewise-constant
 * hazard). Weight, group, cluster, strata and covariates are repeated.
 *
 * @throws StatisticsError for cuts that do not ascend or are not above zero, exit ≤ entry, bad numbers.
 * Source: Therneau & Grambsch 2000 §3.7.1. Outside check: reference cases pwe-veteran, pwe-simseals.
 */
export function splitTime(data: SurvivalData, cuts: NumberColumn): SplitTime {
  const at = checkCuts(cuts);
  const rows = data.exit.length;
  const exit = toNumbers('exit', data.exit, rows);
  const event = toNumbers('event', data.event, rows);
  const entry = data.entry ? toNumbers('entry', data.entry, rows) : fromTheStart(exit);
  const pieces = countPieces(entry, exit, at);
  const split = {
    exit: new Float64Array(pieces),
    entry: new Float64Array(pieces),
    event: new Float64Array(pieces),
    row: new Uint32Array(pieces),
    piece: new Int32Array(pieces),
  };
  let next = 0;
  for (let row = 0; row < rows; row++) {
    const last = exit[row] as number;
    let from = entry[row] as number;
    for (let piece = firstPiece(at, from); from < last; piece++) {
      const to = piece < at.length ? Math.min(last, at[piece] as number) : last;
      split.entry[next] = from;
      split.exit[next] = to;
      split.event[next] = to === last ? (event[row] as number) : 0;
      split.row[next] = row;
      split.piece[next++] = piece;
      from = to;
    }
  }
  return { ...split, cuts: at, ...takeRows(data, split.row) };
}

/**
 * A covariate of split data as one covariate a piece, under the names given: itself within its piece
 * and zero, or its reference level, elsewhere. Each has its own coefficient in a fit.
 *
 * @throws StatisticsError when the names are not as many as the pieces.
 * Source: Therneau & Grambsch 2000 §3.7.1, §6.5. Outside check: R survival's survSplit, by way of `coxTimeSplit`.
 */
export function covariateByPiece(
  column: Covariates[string],
  { piece, cuts }: SplitTime,
  names: readonly string[],
): Covariates {
  if (names.length !== cuts.length + 1)
    throw new StatisticsError('names', `are ${names.length} for ${cuts.length + 1} pieces`);
  return Object.fromEntries(names.map((name, wanted) => [name, within(column, piece, wanted)]));
}

function within(column: Covariates[string], piece: Int32Array, wanted: number): Covariates[string] {
  const values = 'codes' in column ? column.codes : column;
  const kept = 'codes' in column ? new Int32Array(piece.length) : new Float64Array(piece.length);
  for (let row = 0; row < piece.length; row++) if (piece[row] === wanted) kept[row] = values[row] as number;
  return 'codes' in column ? { levels: column.levels, codes: kept } : kept;
}

function checkCuts(cuts: NumberColumn): Float64Array {
  const at = toNumbers('cuts', cuts, cuts.length);
  at.forEach((cut, k) => {
    const before = k === 0 ? 0 : (at[k - 1] as number);
    if (!(cut > before)) throw new StatisticsError('cuts', `${cut} is not above ${before}`, k);
  });
  return at;
}

/** Entry of rows that all began at the start. One that leaves at zero was at risk there, and so was everybody. */
function fromTheStart(exit: Float64Array): Float64Array {
  return new Float64Array(exit.length).fill(exit.includes(0) ? -Number.MIN_VALUE : 0);
}

/** The piece that the time just after `from` lies in. */
function firstPiece(cuts: Float64Array, from: number): number {
  let piece = 0;
  while (piece < cuts.length && (cuts[piece] as number) <= from) piece++;
  return piece;
}

function countPieces(entry: Float64Array, exit: Float64Array, cuts: Float64Array): number {
  let count = exit.length;
  for (let row = 0; row < exit.length; row++) {
    const [from, to] = [entry[row] as number, exit[row] as number];
    if (!(to > from)) throw new StatisticsError('exit', `is ${to}, not after its entry ${from}`, row);
    for (let k = 0; k < cuts.length; k++) if ((cuts[k] as number) > from && (cuts[k] as number) < to) count++;
  }
  return count;
}
