import { adjustmentOf, type Adjustment } from '../adjustment/adjustment.ts';
import type { Asking } from '../asking.ts';
import { askedLives } from '../columns/asked-lives.ts';
import { agesOf, type Ages, type LifeColumns } from '../columns/life-columns.ts';
import { hasAge } from '../curve-rows.ts';
import { gather } from '../gather.ts';
import { ended, lifeRows, type LifeRows } from '../life-rows.ts';
import { scopeOf, type LeftOut } from '../scope.ts';
import { before, earlierLives } from './earlier-lives.ts';

/** Lives by what went before them at their wheel end; columns are one a life in scope. */
export interface RepeatsEvidence {
  readonly lives: LifeRows;
  /** A code of `before`. */
  readonly before: Uint8Array;
  /** 1 for the first seal there; NaN where not told. */
  readonly lifeNumber: Float64Array;
  /** Wheel end of each life, of all vehicles. */
  readonly wheelEnd: Int32Array;
  /** Places of lives of known start that were watched. */
  readonly aged: Int32Array;
  /** Ages by the calendar; null where the lives tell none. */
  readonly months: Ages | null;
  /** Places of the lives that follow a failure or a renewal without one, and what is known of them besides. */
  readonly following: Int32Array;
  readonly adjustment: Adjustment;
  readonly leftOut: LeftOut;
}

export async function repeatsEvidence(asking: Asking): Promise<RepeatsEvidence> {
  const { source, view, signal } = asking;
  const asked = askedLives(source, view.component);
  const scope = await scopeOf({ ...asking, view: { ...view, by: [] } }, asked);
  const lives = await lifeRows(asking, asked, scope);
  const columns = await asked.columns(signal);
  const [position, number] = [await asked.cut('position', signal), await asked.cut('life_number', signal)];
  const earlier = gather(await earlierLives(asking, view.component, columns.rows), scope.rows);
  const place = gather(position.codes, scope.rows);
  const numbers = number.levels.map((label) => (label === 'unknown' ? NaN : Number(label)));
  const aged = Int32Array.from(scope.rows.keys()).filter((at) => hasAge(lives, at));
  const following = aged.filter((at) => earlier[at] !== before.untold);
  const event = Uint8Array.from(following, (at) => (lives.ended[at] === ended.failed ? 1 : 0));
  const rows = gather(scope.rows, following);
  return {
    ...{ lives, before: earlier, aged, following, leftOut: scope.leftOut },
    lifeNumber: Float64Array.from(gather(number.codes, scope.rows), (code) => numbers[code] as number),
    wheelEnd: lives.unit.map((unit, at) => unit * position.levels.length + (place[at] as number)),
    months: monthsOf(columns, scope.rows),
    adjustment: await adjustmentOf(asking, asked, { rows, event, compared: ['life_number', 'prior_failures'] }),
  };
}

function monthsOf(columns: LifeColumns, rows: Int32Array): Ages | null {
  const ages = agesOf(columns, 'months');
  if (ages.exit.every(Number.isNaN)) return null;
  return {
    ...{ entry: gather(ages.entry, rows), exit: gather(ages.exit, rows) },
    ...{ exposure: gather(ages.exposure, rows), onsetLower: gather(ages.onsetLower, rows) },
  };
}
