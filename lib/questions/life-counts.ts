import { hasAge } from './curve-rows.ts';
import { ended, type LifeRows } from './life-rows.ts';

/** Counts that stand beside a group's curve. */
export interface LifeCounts {
  unknownStart: number;
  /** Known start, but not a mile of it was watched. */
  notWatched: number;
  endedBeforeCurve: number;
  lateEntries: number;
  renewed: number;
  removedUnknown: number;
  inferredFailures: number;
}

const none = (): LifeCounts => ({
  ...{ unknownStart: 0, notWatched: 0, endedBeforeCurve: 0, lateEntries: 0 },
  ...{ renewed: 0, removedUnknown: 0, inferredFailures: 0 },
});

/** By group, in one pass. */
export function lifeCounts(lives: LifeRows, starts: readonly (number | null)[]): LifeCounts[] {
  const counts = starts.map(none);
  for (let row = 0; row < lives.rows; row++) {
    const group = lives.group[row] as number;
    const count = counts[group] as LifeCounts;
    if (Number.isNaN(lives.entry[row])) count.unknownStart++;
    else if (!hasAge(lives, row)) count.notWatched++;
    else if ((lives.exit[row] as number) <= (starts[group] ?? -1)) count.endedBeforeCurve++;
    if ((lives.entry[row] as number) > 0) count.lateEntries++;
    if (lives.ended[row] === ended.renewed) count.renewed++;
    if (lives.ended[row] === ended.removedUnknown) count.removedUnknown++;
    if (lives.inferred[row] === 1) count.inferredFailures++;
  }
  return counts;
}
