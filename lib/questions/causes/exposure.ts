import { deviationCodes, deviationColumn } from '../../../shared/deviations.ts';
import type { View } from '../../../shared/view.ts';
import type { CutCodes } from '../columns/cut-codes.ts';
import { deviationOf } from '../words/group-words.ts';

/** A side of an exposure that is ranked: a deviation's yes, or one value of an attribute. */
export interface RankedLevel {
  /** Place in the exposure's levels. */
  readonly level: number;
  readonly label: string;
  readonly by: Readonly<Record<string, string>>;
}

/** What was recorded at installation, as one covariate: the reference first, not known a level of its own. */
export interface Exposure {
  readonly column: string;
  /** The deviation's code; null for another attribute. */
  readonly deviation: string | null;
  readonly levels: readonly string[];
  /** One a life; −1 where the deviation cannot exist. */
  readonly codes: Int32Array;
  readonly ranked: readonly RankedLevel[];
}

/** Values of an attribute beyond these, fewest lives first, stand together and are not ranked. */
const mostRanked = 60;

/** Columns ranked: deviations chosen among the cuts, else all of them, and every other cut. */
export function rankedColumns({ by }: Pick<View, 'by'>): string[] {
  const chosen = by.filter((column) => deviationOf(column) !== null);
  const others = by.filter((column) => deviationOf(column) === null);
  return [...(chosen.length > 0 ? chosen : deviationCodes.map(deviationColumn)), ...others];
}

export function exposureOf(column: string, { levels, codes }: CutCodes, rows: Int32Array): Exposure {
  const deviation = deviationOf(column);
  const shown = deviation === null ? byLives(levels, codes, rows) : ['no', 'yes', 'unknown'];
  const rest = shown.indexOf('other values');
  const placeOf = Int32Array.from(levels, (label) =>
    label === 'not-applicable' && deviation !== null ? -1 : shown.includes(label) ? shown.indexOf(label) : rest,
  );
  const own = new Int32Array(rows.length);
  for (let at = 0; at < rows.length; at++) own[at] = placeOf[codes[rows[at] as number] as number] as number;
  const ranked =
    deviation === null
      ? shown.flatMap((label, level) =>
          level === 0 || label === 'unknown' || level === rest ? [] : [{ level, label, by: { [column]: label } }],
        )
      : [{ level: 1, label: deviation, by: { deviation } }];
  return { column, deviation, levels: shown, codes: own, ranked };
}

/** Labels that occur, most lives first but not known last. */
function byLives(levels: readonly string[], codes: Int32Array, rows: Int32Array): string[] {
  const lives = new Float64Array(levels.length);
  for (const row of rows) lives[codes[row] as number] = (lives[codes[row] as number] as number) + 1;
  const known = levels
    .map((label, code) => ({ label, lives: lives[code] as number }))
    .filter(({ label, lives: some }) => some > 0 && label !== 'unknown')
    .sort((a, b) => b.lives - a.lives || (a.label < b.label ? -1 : 1))
    .map(({ label }) => label);
  const unknown = levels.some((label, code) => label === 'unknown' && (lives[code] as number) > 0) ? ['unknown'] : [];
  const rest = known.length > mostRanked + 1 ? ['other values'] : [];
  return [...known.slice(0, mostRanked + 1), ...rest, ...unknown];
}
