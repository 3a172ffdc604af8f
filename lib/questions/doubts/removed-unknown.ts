import type { Doubt } from '../../../shared/finding.ts';
import type { View } from '../../../shared/view.ts';
import { withEnds, type CurveRows } from '../curve-rows.ts';
import { curvesIf } from '../life-curves.ts';
import { ended } from '../life-rows.ts';
import type { ComponentWords } from '../words/component-words.ts';
import { counted } from '../words/wording.ts';
import { boundedShare, type BoundedGroups } from './bounded-share.ts';

/** Lives that came off for no stated reason are taken as not failed; had all failed, how much would change. */
export function removedUnknown(
  rows: CurveRows,
  view: View,
  groups: BoundedGroups,
  thing: ComponentWords,
): Doubt | null {
  const lives = rows.cause.reduce((sum, cause) => sum + (cause === ended.removedUnknown ? 1 : 0), 0);
  if (lives === 0) return null;
  const failedAll = withEnds(rows, (row) => (rows.cause[row] === ended.removedUnknown ? { event: 1 } : null));
  return boundedShare(groups, {
    name: 'Removed for no stated reason',
    about: `${counted(lives, thing.one, thing.many)} came off for no stated reason and count as not failed`,
    assumption: 'had all of them failed',
    settledBy: 'the reason of those services',
    curves: curvesIf(failedAll, view),
  });
}
