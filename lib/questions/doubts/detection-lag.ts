import type { Doubt } from '../../../shared/finding.ts';
import type { View } from '../../../shared/view.ts';
import { ageAxes } from '../age-axis.ts';
import { withEnds, type CurveRows } from '../curve-rows.ts';
import { sharesIf } from '../life-curves.ts';
import { gather, placesWhere } from '../gather.ts';
import type { LifeRows } from '../life-rows.ts';
import { percent } from '../words/share-words.ts';
import type { ComponentWords } from '../words/component-words.ts';
import { doubt } from './doubt.ts';
import { boundedShare, type BoundedGroups } from './bounded-share.ts';

/** Where more than this share of failed lives had no clean check before, the onsets are hardly known at all. */
const mostUnchecked = 0.5;

function median(values: Float64Array): number {
  const sorted = values.slice().sort();
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1
    ? (sorted[middle] as number)
    : ((sorted[middle - 1] as number) + (sorted[middle] as number)) / 2;
}

/**
 * A leak is found later than it began. Onset lies after the last clean check (record contract 5.5);
 * the bound puts every onset right there. Fails also where most failed lives were never checked before.
 */
export function detectionLag(
  rows: CurveRows,
  lives: LifeRows,
  view: View,
  groups: BoundedGroups,
  thing: ComponentWords,
): Doubt | null {
  const earliest = (row: number) => lives.onsetLower[rows.source[row] as number] as number;
  const failed = placesWhere(rows.rows, (row) => rows.event[row] === 1);
  const told = failed.filter((row) => !Number.isNaN(earliest(row)));
  const settledBy = 'clean inspections written down more often';
  if (failed.length === 0 || view.component === 'bearing') return null;
  if (told.length === 0)
    return doubt(
      'Found late',
      'cannot-tell',
      `No inspection tells how long a ${thing.failure} had been there before it was found.`,
      settledBy,
    );
  const unchecked = told.filter((row) => earliest(row) <= (lives.entry[rows.source[row] as number] as number)).length;
  const wide = median(gather(rows.exit, told).map((exit, at) => exit - earliest(told[at] as number)));
  // An onset before the life came under observation cannot be placed: a mile (a day) after is the earliest that counts.
  const atOnset = withEnds(rows, (row) =>
    rows.event[row] === 1 && earliest(row) < (rows.exit[row] as number)
      ? {
          exit: Math.min(
            rows.exit[row] as number,
            Math.max(earliest(row), (rows.entry[row] as number) + ageAxes[view.axis].step),
          ),
        }
      : null,
  );
  const bounded = boundedShare(groups, {
    name: 'Found late',
    about: `For half of the failed ${thing.many} the ${thing.failure} may have begun anywhere in the last ${groups.words.age(wide)} or more; ${percent(unchecked / told.length)} had no clean check before`,
    assumption: 'had each begun right after its last clean check',
    settledBy,
    shares: sharesIf(atOnset, view),
  });
  return unchecked / told.length > mostUnchecked ? { ...bounded, state: 'fails' } : bounded;
}
