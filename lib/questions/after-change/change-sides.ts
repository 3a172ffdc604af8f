import { gather, placesWhere } from '../gather.ts';
import type { ChangeEvidence } from './change-evidence.ts';

/** Who changed, and who was fitted after; one a life. */
export interface ChangeSides {
  /** 1 where fitted by a shop that changed, 0 by another known shop, −1 where the shop is not known. */
  readonly side: Int32Array;
  /** 1 where fitted from the day of the change on, 0 before, −1 where left out. */
  readonly after: Int32Array;
}

export function changeSides(
  { shop, shops, installDay }: ChangeEvidence,
  day: number,
  changed: readonly string[],
  /** Shops with a change of their own, which tell nothing of what would have been without one. */
  alsoChanged: readonly string[] = [],
): ChangeSides {
  const sideOf = shops.map((label) =>
    changed.includes(label) ? 1 : label === 'unknown' || alsoChanged.includes(label) ? -1 : 0,
  );
  return {
    side: shop.map((code) => sideOf[code] as number),
    after: Int32Array.from(installDay, (own) => (own >= day ? 1 : 0)),
  };
}

/** Without the lives fitted in the last days before the change. */
export const withoutLast = (after: Int32Array, installDay: Float64Array, from: number): Int32Array =>
  after.map((when, at) => (when === 0 && (installDay[at] as number) >= from ? -1 : when));

/** Places of the lives of one side, before or after. */
export const cellOf = ({ side, after }: ChangeSides, own: number, when: number): Int32Array =>
  placesWhere(side.length, (at) => side[at] === own && after[at] === when);

interface Levels {
  readonly levels: readonly string[];
  readonly codes: Int32Array;
}

export const takenLevels = ({ levels, codes }: Levels, places: Int32Array): Levels => ({
  levels,
  codes: gather(codes, places),
});
