import type { SurvivalData } from '../statistics/index.ts';
import { gather, placesWhere } from './gather.ts';
import { ended, type LifeRows } from './life-rows.ts';

/** Curves start where at least this many are at risk. */
export const leastAtRisk = 10;

/** Lives with a known start as the survival functions take them, each group from the age its curve starts at. */
export interface CurveRows extends SurvivalData {
  readonly rows: number;
  readonly entry: Float64Array;
  readonly exit: Float64Array;
  readonly event: Uint8Array;
  /** Codes of `ended`: failed, or renewed for whatever other reason. */
  readonly cause: Uint8Array;
  readonly group: { readonly levels: readonly string[]; readonly codes: Int32Array };
  readonly cluster: Int32Array;
  /** Row of `LifeRows` behind each row. */
  readonly source: Int32Array;
}

/** What curves need of lives. */
export type AgedLives = Pick<LifeRows, 'rows' | 'group' | 'unit' | 'entry' | 'exit' | 'ended'>;

/** Whether a life has an age and was watched for some of it. */
export const hasAge = (lives: AgedLives, row: number): boolean =>
  (lives.exit[row] as number) > (lives.entry[row] as number);

/**
 * For each group the least age at which `leastAtRisk` lives are under observation; null where there
 * never are. A curve from there on is one of lives that reached that age.
 */
export function curveStarts(lives: AgedLives, groups: number): (number | null)[] {
  const fromNew = countByGroup(lives.group, groups, (row) => hasAge(lives, row) && lives.entry[row] === 0);
  return Array.from(fromNew, (atStart, group) => (atStart >= leastAtRisk ? 0 : sweptStart(lives, group, false)));
}

/** How many rows of each group meet a test. */
export function countByGroup(codes: Int32Array, groups: number, test: (row: number) => boolean): Int32Array {
  const counts = new Int32Array(groups);
  codes.forEach((code, row) => {
    if (test(row)) counts[code] = (counts[code] as number) + 1;
  });
  return counts;
}

/**
 * The start found by following the group along its ages. With `unbroken`, a start after which
 * everyone left before others entered is given up for a later one: the curve would fall to nothing there.
 */
export function sweptStart(lives: AgedLives, group: number, unbroken: boolean): number | null {
  const rows = placesWhere(lives.rows, (row) => lives.group[row] === group && hasAge(lives, row));
  const entries = gather(lives.entry, rows).sort();
  const exits = gather(lives.exit, rows).sort();
  let left = 0;
  let start: number | null = null;
  for (let place = 0; place < entries.length; place++) {
    const age = entries[place] as number;
    while ((exits[left] as number) <= age) left++;
    if (place === left) start = null;
    if (place + 1 - left >= leastAtRisk) start ??= age;
    if (start !== null && !unbroken) return start;
  }
  return start;
}

/** Which lives stand behind the curves of which groups, and the age each is watched from. */
export function curveRows(lives: AgedLives, starts: readonly (number | null)[], levels: readonly string[]): CurveRows {
  const source = new Int32Array(lives.rows);
  let rows = 0;
  for (let row = 0; row < lives.rows; row++) {
    const start = starts[lives.group[row] as number] ?? null;
    if (start !== null && hasAge(lives, row) && (lives.exit[row] as number) > start) source[rows++] = row;
  }
  const kept = source.subarray(0, rows);
  const entry = new Float64Array(rows);
  const exit = new Float64Array(rows);
  const cause = new Uint8Array(rows);
  const event = new Uint8Array(rows);
  const codes = new Int32Array(rows);
  const cluster = new Int32Array(rows);
  for (let place = 0; place < rows; place++) {
    const row = kept[place] as number;
    codes[place] = lives.group[row] as number;
    entry[place] = Math.max(lives.entry[row] as number, starts[codes[place] as number] as number);
    exit[place] = lives.exit[row] as number;
    cause[place] = lives.ended[row] as number;
    event[place] = cause[place] === ended.failed ? 1 : 0;
    cluster[place] = lives.unit[row] as number;
  }
  return { rows, entry, exit, event, cause, group: { levels, codes }, cluster, source: kept };
}

/** Some of the rows, by their place. */
export function keptRows(rows: CurveRows, keep: (place: number) => boolean): CurveRows {
  const at = placesWhere(rows.rows, keep);
  return {
    ...{ rows: at.length, entry: gather(rows.entry, at), exit: gather(rows.exit, at), event: gather(rows.event, at) },
    ...{ cause: gather(rows.cause, at), cluster: gather(rows.cluster, at), source: gather(rows.source, at) },
    group: { levels: rows.group.levels, codes: gather(rows.group.codes, at) },
  };
}

/** The same lives with some of them ending otherwise, for the doubts that ask "what if". */
export function withEnds(
  rows: CurveRows,
  change: (place: number) => { readonly exit?: number; readonly event?: 0 | 1 } | null,
): CurveRows {
  const exit = rows.exit.slice();
  const event = rows.event.slice();
  for (let place = 0; place < rows.rows; place++) {
    const changed = change(place);
    if (changed?.exit !== undefined) exit[place] = changed.exit;
    if (changed?.event !== undefined) event[place] = changed.event;
  }
  return { ...rows, exit, event };
}
