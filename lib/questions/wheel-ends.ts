import type { Asking } from './asking.ts';
import type { AskedLives } from './columns/asked-lives.ts';
import { PairPlaces } from './pair-places.ts';
import type { Scope } from './scope.ts';

/** How many wheel ends each group's lives sit at: the other denominator beside the miles. */
export async function wheelEndsOf({ signal }: Asking, lives: AskedLives, scope: Scope): Promise<number[]> {
  const [unit, position] = [await lives.cut('unit_id', signal), await lives.cut('position', signal)];
  const wheelEnds = new PairPlaces(unit.levels.length, position.levels.length);
  const seen = new PairPlaces(scope.keys.groups.length, unit.levels.length * position.levels.length);
  const counts = scope.keys.groups.map(() => 0);
  for (let at = 0; at < scope.rows.length; at++) {
    const [row, group] = [scope.rows[at] as number, scope.group[at] as number];
    const before = seen.pairs;
    seen.place(group, wheelEnds.place(unit.codes[row] as number, position.codes[row] as number));
    if (seen.pairs > before) counts[group] = (counts[group] as number) + 1;
  }
  return counts;
}
