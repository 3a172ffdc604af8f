import type { Doubt } from '../../../shared/finding.ts';
import type { View } from '../../../shared/view.ts';
import { withEnds, type CurveRows } from '../curve-rows.ts';
import { sharesIf } from '../life-curves.ts';
import type { LifeRows } from '../life-rows.ts';
import type { ComponentWords } from '../words/component-words.ts';
import { counted } from '../words/wording.ts';
import { boundedShare, type BoundedGroups } from './bounded-share.ts';

/** A leak of 2 or more that an inspection saw fails no life without a failure row (record contract 5.5); here is its bound. */
export function seenLeaks(
  rows: CurveRows,
  lives: LifeRows,
  view: View,
  groups: BoundedGroups,
  thing: ComponentWords,
): Doubt | null {
  const leakAge = (row: number) => lives.seenLeak[rows.source[row] as number] as number;
  const leaking = rows.entry.reduce((sum, entry, row) => sum + (leakAge(row) > entry ? 1 : 0), 0);
  if (leaking === 0) return null;
  const failed = withEnds(rows, (row) => {
    const age = leakAge(row);
    return age > (rows.entry[row] as number) ? { event: 1, exit: Math.min(age, rows.exit[row] as number) } : null;
  });
  return boundedShare(groups, {
    name: 'Leaks seen, no failure written down',
    about: `Inspections saw ${counted(leaking, thing.one, thing.many)} leaking that no failure row tells of`,
    assumption: 'had all of them failed then',
    settledBy: 'what was done about those inspection findings',
    shares: sharesIf(failed, view),
  });
}
