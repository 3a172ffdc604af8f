import { checkSurvival } from './cox-data.ts';
import { sortOrder } from './numeric/sort-order.ts';
import { covariateByPiece, splitTime, type SplitTime } from './split-time.ts';
import { StatisticsError } from './statistics-error.ts';
import { toCategory, toCodes, type Category, type Codes, type Covariates, type SurvivalData } from './survival-data.ts';
import { takeRows } from './take-rows.ts';

export interface ExposureOptions {
  /** The covariate taken away: a category, or a column of 0 and 1. */
  readonly exposure: string;
  /** Its levels that are set to the reference level, all of them unless given. Levels not named (unknown) stay as they are. */
  readonly levels?: readonly string[];
  readonly horizon: number;
  /** Where its ratio may change: up to and with this time early, then later. One ratio throughout unless given. */
  readonly cut?: number;
}

/** Lives under watch at some time before the horizon, in strata watched all the way to it; cut off there. */
export interface ExcessLives {
  readonly exit: Float64Array;
  readonly event: Uint8Array;
  readonly entry: Float64Array | null;
  readonly weight: Float64Array | null;
  readonly strata: Category;
  readonly cluster: Codes;
  readonly exposure: Category;
  /** By level of the exposure: 1 where it is taken away. */
  readonly removed: Uint8Array;
  /** Covariates but the exposure. */
  readonly others: Covariates;
  /** The lives cut in pieces, the exposure behind the others as one covariate a piece. */
  readonly split: SplitTime;
  /** The exposure's name in each piece. */
  readonly pieces: readonly string[];
  /** Lives whose stratum is not watched all the way. */
  readonly leftOut: number;
}

/**
 * Checks and cuts the lives; a text says why they give no answer.
 *
 * @throws StatisticsError naming the argument and row.
 */
export function excessLives(data: SurvivalData, options: ExposureOptions): ExcessLives | string {
  const { horizon } = options;
  const cuts = checkTimes(options);
  const { exit, event, entry, weight, rows, ...checked } = checkSurvival(data);
  const strata = checked.strata ?? { levels: ['all'], codes: new Int32Array(rows) };
  const { [options.exposure]: column, ...others } = data.covariates ?? {};
  const exposure = toExposure(column, options.exposure, rows);
  const removed = toRemoved(exposure, options.levels);
  const before = Uint32Array.from({ length: rows }, (_, row) => row).filter(
    (row) => (entry === null || (entry[row] as number) < horizon) && weight?.[row] !== 0,
  );
  const watched = strataWatchedTo(horizon, exit, entry, strata);
  const kept = before.filter((row) => watched[strata.codes[row] as number] === 1);
  if (kept.length === 0) return 'nobody was watched all the way to the horizon';
  const cluster = data.cluster ? toCodes('cluster', data.cluster, rows).codes : null;
  const lives = {
    exit: take(exit, kept, new Float64Array(kept.length)).map((time) => Math.min(time, horizon)),
    event: take(event, kept, new Uint8Array(kept.length)).map((one, at) =>
      (exit[kept[at] as number] as number) <= horizon ? one : 0,
    ),
    entry: entry && take(entry, kept, new Float64Array(kept.length)),
    weight: weight && take(weight, kept, new Float64Array(kept.length)),
    strata: { levels: strata.levels, codes: take(strata.codes, kept, new Int32Array(kept.length)) },
    cluster: denselyCoded(cluster && take(cluster, kept, new Int32Array(kept.length)), kept.length),
    exposure: { levels: exposure.levels, codes: take(exposure.codes, kept, new Int32Array(kept.length)) },
    removed,
    others: takeRows({ covariates: others }, kept).covariates as Covariates,
    leftOut: before.length - kept.length,
  };
  const pieces =
    cuts.length === 0 ? [options.exposure] : ['early', 'later'].map((when) => `${options.exposure}, ${when}`);
  return { ...lives, pieces, split: inPieces(lives, cuts, pieces) };
}

function checkTimes({ horizon, cut }: ExposureOptions): readonly number[] {
  if (!(horizon > 0 && horizon < Infinity)) throw new StatisticsError('horizon', `${horizon} is not a time above zero`);
  if (cut === undefined) return [];
  if (!(cut > 0 && cut < horizon))
    throw new StatisticsError('cut', `${cut} is not between 0 and the horizon ${horizon}`);
  return [cut];
}

function toExposure(column: Covariates[string] | undefined, name: string, rows: number): Category {
  if (column === undefined) throw new StatisticsError('exposure', `${name} is not among the covariates`);
  const argument = `covariates.${name}`;
  if ('codes' in column) return toCategory(argument, column, rows);
  if (column.length !== rows) throw new StatisticsError(argument, `has ${column.length} rows where ${rows} are wanted`);
  const codes = Int32Array.from(column);
  codes.forEach((code, row) => {
    if ((code !== 0 && code !== 1) || code !== column[row])
      throw new StatisticsError(argument, `is ${column[row]}, not 0 or 1`, row);
  });
  return { levels: ['0', '1'], codes };
}

function toRemoved({ levels }: Category, named: readonly string[] | undefined): Uint8Array {
  const wanted = named ?? levels.slice(1);
  if (wanted.length === 0) throw new StatisticsError('levels', 'are none');
  for (const level of wanted)
    if (levels.indexOf(level) < 1) throw new StatisticsError('levels', `name ${level}, no level but the reference`);
  return Uint8Array.from(levels, (level) => (wanted.includes(level) ? 1 : 0));
}

/** By stratum, 1 where at every time up to the horizon somebody is at risk. */
function strataWatchedTo(
  horizon: number,
  exit: Float64Array,
  entry: Float64Array | null,
  { levels, codes }: Category,
): Uint8Array {
  // How far the lives begun so far, taken by entry, are watched without a gap.
  const reach = new Float64Array(levels.length);
  const order = entry ? sortOrder(entry) : Uint32Array.from(exit.keys());
  for (const row of order) {
    const stratum = codes[row] as number;
    const reached = reach[stratum] as number;
    if (entry && (entry[row] as number) > reached) continue;
    if ((exit[row] as number) > reached) reach[stratum] = exit[row] as number;
  }
  return Uint8Array.from(reach, (reached) => (reached >= horizon ? 1 : 0));
}

function take<A extends Float64Array | Uint8Array | Int32Array>(from: A, rows: Uint32Array, to: A): A {
  for (let at = 0; at < rows.length; at++) to[at] = from[rows[at] as number] as number;
  return to;
}

/** Clusters counted from 0 without gaps; each life its own where there are none. */
function denselyCoded(codes: Int32Array | null, rows: number): Codes {
  return codes
    ? toCodes('cluster', codes, rows)
    : { count: rows, codes: Int32Array.from({ length: rows }, (_, row) => row) };
}

type UncutLives = Omit<ExcessLives, 'split' | 'pieces'>;

function inPieces(lives: UncutLives, cuts: readonly number[], pieces: readonly string[]): SplitTime {
  const { exit, event, entry, weight, strata, exposure, others } = lives;
  const data = { exit, event, ...(entry ? { entry } : {}), ...(weight ? { weight } : {}), strata, covariates: others };
  const split = splitTime(data, cuts);
  const codes = Int32Array.from(split.row, (row) => exposure.codes[row] as number);
  const byPiece = covariateByPiece({ levels: exposure.levels, codes }, split, pieces);
  return { ...split, covariates: { ...split.covariates, ...byPiece } };
}
