import type { NamedLife } from '../../../shared/finding.ts';
import type { Asking } from '../asking.ts';
import { listColumns } from '../life-list/list-columns.ts';
import { listedLives } from '../life-list/listed-life.ts';
import { gather } from '../gather.ts';
import type { AheadEvidence } from './ahead-evidence.ts';

/** What a list says of a life beside its name. */
export type Beside = (place: number) => Pick<NamedLife, 'aheadMiles' | 'chance' | 'kind'>;

/** Lives at some places by their names, so that each can be opened. */
export async function namedLives(
  { asked, rows }: AheadEvidence,
  places: Int32Array,
  { view, signal }: Asking,
  beside: Beside,
): Promise<NamedLife[]> {
  const columns = await listColumns(asked, signal);
  const listed = listedLives({ component: view.component, rows: gather(rows, places), columns }, 0, places.length);
  return listed.map(({ lifeId, unitId, position, role, shop, installDate, exitMiles }, at) => ({
    ...{ lifeId, unitId, position, role, shop, installDate, miles: exitMiles },
    ...beside(places[at] as number),
  }));
}
