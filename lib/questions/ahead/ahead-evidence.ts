import { daysAMonth } from '../../../shared/units.ts';
import { lifeStates } from '../../../shared/vocabulary.ts';
import { askedLives, type AskedLives } from '../columns/asked-lives.ts';
import type { CutCodes } from '../columns/cut-codes.ts';
import type { LifeColumns } from '../columns/life-columns.ts';
import type { Asking } from '../asking.ts';
import { hasAge } from '../curve-rows.ts';
import { lifeConsequences, type LifeConsequences } from '../fitted/consequences.ts';
import { gather, placesWhere } from '../gather.ts';
import { groupKeys, type GroupKeys } from '../group-keys.ts';
import { ended, lifeRows, type LifeRows } from '../life-rows.ts';
import { scopeOf, type LeftOut } from '../scope.ts';
import { pacesOf, type Paces } from './paces.ts';

/** The lives a forecast stands on, and those it is of. Columns are one a life in scope. */
export interface AheadEvidence {
  readonly asked: AskedLives;
  readonly columns: LifeColumns;
  /** Place in the lives table. */
  readonly rows: Int32Array;
  readonly lives: LifeRows;
  /** The groups named; a life's code past the last is of a group that the table leaves out. */
  readonly keys: GroupKeys;
  /** Places of lives of known start that were watched: what the fits are told. */
  readonly aged: Int32Array;
  /** Of these the ones still running. */
  readonly running: Int32Array;
  /** Still running, nobody knows since when. */
  readonly unknownStart: Int32Array;
  readonly role: CutCodes;
  readonly paces: Paces;
  /** Miles each running life will run; NaN where no pace is known at all. */
  readonly aheadMiles: Float64Array;
  readonly consequences: LifeConsequences;
  readonly leftOut: LeftOut;
}

const runningCode = lifeStates.indexOf('running');

/**
 * Every life in scope, originals too: what runs is forecast, whoever fitted it. So a cut by shop does
 * not leave out what no shop fitted, as a comparison of shops would.
 */
export async function aheadEvidence(asking: Asking): Promise<AheadEvidence> {
  const { source, view, signal } = asking;
  const asked = askedLives(source, view.component);
  const scope = await scopeOf({ ...asking, view: { ...view, by: [] } }, asked);
  const columns = await asked.columns(signal);
  const cuts: CutCodes[] = [];
  for (const column of view.by) cuts.push(await asked.cut(column, signal));
  const { keys, group: groupOfShown, shown } = groupKeys(view, cuts, scope.rows);
  // What the table leaves out is still coming: it stands in a group of its own behind the named ones.
  const groupOf = new Int32Array(columns.rows).fill(keys.groups.length);
  shown.forEach((row, at) => (groupOf[row] = groupOfShown[at] as number));
  const { rows } = scope;
  const lives = await lifeRows(asking, asked, { ...scope, group: gather(groupOf, rows), keys });
  const { state } = await asked.listed(signal);
  const runs = (place: number) => state[rows[place] as number] === runningCode;
  const role = await asked.cut('role', signal);
  const paces = await pacesOf(asking, (await asked.cut('unit_id', signal)).levels);
  const aged = placesWhere(lives.rows, (place) => hasAge(lives, place));
  return {
    ...{ asked, columns, rows, lives, keys, aged, role, paces },
    running: placesWhere(lives.rows, (place) => runs(place) && !Number.isNaN(lives.exit[place])),
    unknownStart: placesWhere(lives.rows, (place) => runs(place) && Number.isNaN(lives.exit[place])),
    aheadMiles: lives.exit.map((_, place) =>
      view.ahead === 'miles'
        ? view.aheadMiles
        : (paces.milesADay[lives.unit[place] as number] as number) * daysAMonth * view.aheadMonths,
    ),
    consequences: await lifeConsequences(asking, columns.rows),
    leftOut: { ...scope.leftOut, beyond: keys.beyond },
  };
}

/** The lives at some places as fits take them. */
export function fittedAt({ lives }: Pick<AheadEvidence, 'lives'>, places: Int32Array) {
  return {
    ...{ entry: gather(lives.entry, places), exit: gather(lives.exit, places) },
    event: gather(lives.ended, places).map((code) => (code === ended.failed ? 1 : 0)),
    cluster: gather(lives.unit, places),
  };
}
