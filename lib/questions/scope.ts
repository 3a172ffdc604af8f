import { jobColumns } from '../../shared/lives.ts';
import type { View } from '../../shared/view.ts';
import type { Asking } from './asking.ts';
import type { AskedLives } from './columns/asked-lives.ts';
import type { CutCodes } from './columns/cut-codes.ts';
import type { LifeColumns } from './columns/life-columns.ts';
import { groupKeys, type GroupKeys } from './group-keys.ts';
import { deviationOf } from './words/group-words.ts';

/** How a value of a cut column is written wherever one is named. */

/** Whether a view compares jobs, of which only replacement lives tell. */
export const comparesJobs = (view: View): boolean => view.by.some((column) => jobColumns.has(column));

/** Lives a comparison leaves out by rule, counted so that none goes silently. */
export interface LeftOut {
  /** Chosen, but begun by no job in these records. */
  readonly notReplacement: number;
  /** Where the deviation compared cannot exist: it is no "no". */
  readonly notApplicable: number;
  /** Whose miles are estimated, where these are chosen to be left out. */
  readonly estimated: number;
  readonly beyond: { readonly groups: number; readonly lives: number };
}

/** The lives a view asks about, in the order of the lives table, and the group each is in. */
export interface Scope {
  readonly rows: Int32Array;
  /** Index into `keys.groups`, one a row. */
  readonly group: Int32Array;
  readonly keys: GroupKeys;
  readonly leftOut: LeftOut;
}

/** The cut columns a view needs the codes of. */
export const scopeColumns = (view: View): string[] => [...new Set([...Object.keys(view.where), ...view.by])];

const dayNumber = (iso: string): number => Date.parse(`${iso}T00:00:00Z`) / 86_400_000;

type Test = (row: number) => boolean;

function chosenBy(view: View, { installDay }: LifeColumns, cuts: ReadonlyMap<string, CutCodes>): Test[] {
  const tests = Object.entries(view.where).map(([column, values]): Test => {
    const { levels, codes } = cuts.get(column) as CutCodes;
    const wanted = levels.map((label) => values?.includes(label) ?? true);
    return (row) => wanted[codes[row] as number] as boolean;
  });
  const { installedFrom, installedTo } = view;
  if (installedFrom !== null) tests.push((row) => (installDay[row] as number) >= dayNumber(installedFrom));
  if (installedTo !== null) tests.push((row) => (installDay[row] as number) <= dayNumber(installedTo));
  return tests;
}

function cannotExist(view: View, cuts: ReadonlyMap<string, CutCodes>): Test[] {
  return view.by
    .filter((column) => deviationOf(column) !== null)
    .map((column) => {
      const { levels, codes } = cuts.get(column) as CutCodes;
      const never = levels.indexOf('not-applicable');
      return (row) => codes[row] === never;
    });
}

/** Which lives a view asks about, by its filters, its dates and the rules of its comparison. */
export async function scopeOf({ source, view, signal }: Asking, lives: AskedLives): Promise<Scope> {
  const columns = await lives.columns(signal);
  if (view.axis === 'months' && columns.rows > 0 && columns.months.exposure.every(Number.isNaN))
    throw new Error(
      'no months in these lives; ages in months need exposure_months and exit_months in a lives table, or records; none found',
    );
  const cuts = new Map<string, CutCodes>();
  for (const column of scopeColumns(view)) cuts.set(column, await lives.cut(column, signal));
  const chosen = chosenBy(view, columns, cuts);
  const never = cannotExist(view, cuts);
  const jobs = comparesJobs(view);
  const kept = new Int32Array(columns.rows);
  const measuredOnly = source.estimatedLives === 'out';
  let [rows, notReplacement, notApplicable, estimated] = [0, 0, 0, 0];
  for (let row = 0; row < columns.rows; row++) {
    if (!chosen.every((test) => test(row))) continue;
    if (measuredOnly && columns.extrapolated[row] === 1) estimated++;
    else if (jobs && columns.replacement[row] === 0) notReplacement++;
    else if (never.some((test) => test(row))) notApplicable++;
    else kept[rows++] = row;
  }
  const { keys, group, shown } = groupKeys(
    view,
    view.by.map((column) => cuts.get(column) as CutCodes),
    kept.subarray(0, rows),
  );
  return { rows: shown, group, keys, leftOut: { notReplacement, notApplicable, estimated, beyond: keys.beyond } };
}
