import type { Asking } from './asking.ts';
import type { AskedLives } from './columns/asked-lives.ts';
import { agesOf, modeCode, states } from './columns/life-columns.ts';
import { gather } from './gather.ts';
import type { Scope } from './scope.ts';

/** How a life ended, as a cause code of competing risks: 0 is censored. */
export const ended = states;

/** Lives behind the curves and beside them. Columns of equal length; ages since installation as the view's axis counts them. */
export interface LifeRows {
  readonly rows: number;
  /** Index into the groups shown. */
  readonly group: Int32Array;
  /** Code of the vehicle, below `units`. */
  readonly unit: Int32Array;
  readonly units: number;
  /** Place in `shops`. */
  readonly shop: Int32Array;
  readonly shops: readonly string[];
  /** NaN where the start is not known. */
  readonly entry: Float64Array;
  readonly exit: Float64Array;
  readonly exposure: Float64Array;
  /** What was watched in both, whatever the axis. */
  readonly exposureMiles: Float64Array;
  readonly exposureMonths: Float64Array;
  /** Age at the last clean check of a life, NaN where none is told. */
  readonly onsetLower: Float64Array;
  /** A code of `ended`. Where one mode is asked for, another mode ends a life as a renewal does. */
  readonly ended: Uint8Array;
  readonly estimated: Uint8Array;
  readonly extrapolated: Uint8Array;
  readonly inferred: Uint8Array;
  /** Age at a leak that an inspection saw and no failure row tells of; NaN where there is none. */
  readonly seenLeak: Float64Array;
}

/** The columns of the lives in scope, gathered. */
export async function lifeRows({ view, signal }: Asking, lives: AskedLives, { rows, group }: Scope): Promise<LifeRows> {
  const columns = await lives.columns(signal);
  const [unit, shop] = [await lives.cut('unit_id', signal), await lives.cut('shop', signal)];
  const seen = await lives.seenLeaks(view.axis, signal);
  const ages = agesOf(columns, view.axis);
  // The whole table in its order needs no copy: nothing here is changed in place.
  const take = <T extends Float64Array | Int32Array | Uint8Array>(column: T) =>
    rows.length === columns.rows ? column : gather(column, rows);
  const [state, modes] = [take(columns.state), take(columns.mode)];
  const mode = view.mode === null ? null : modeCode(view.mode);
  return {
    ...{
      rows: rows.length,
      group,
      unit: take(unit.codes),
      units: unit.levels.length,
      shop: take(shop.codes),
      shops: shop.levels,
    },
    entry: take(ages.entry),
    exit: take(ages.exit),
    exposure: take(ages.exposure),
    exposureMiles: take(columns.exposure),
    exposureMonths: take(columns.months.exposure),
    onsetLower: take(ages.onsetLower),
    ended:
      mode === null
        ? state
        : state.map((code, at) => (code === ended.failed && modes[at] !== mode ? ended.renewed : code)),
    estimated: take(columns.estimated),
    extrapolated: take(columns.extrapolated),
    inferred: take(columns.inferred),
    seenLeak: seen ? take(seen) : new Float64Array(rows.length).fill(NaN),
  };
}
