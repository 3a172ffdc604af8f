import type { CurveRows } from './curve-rows.ts';
import type { Carried } from './doubts/leave-one-out.ts';
import { PairPlaces } from './pair-places.ts';

/**
 * Failures, and miles or months at risk, of each vehicle, or each shop, within each group, from the rows behind
 * the curves.
 * @param code of the vehicle or shop of a row of `LifeRows`, below `codes`
 */
export function carriersOf(rows: CurveRows, code: Int32Array, codes: number): Carried {
  const places = new PairPlaces(rows.group.levels.length, codes);
  const [group, by] = [new Int32Array(rows.rows), new Int32Array(rows.rows)];
  const [events, watched] = [new Float64Array(rows.rows), new Float64Array(rows.rows)];
  for (let row = 0; row < rows.rows; row++) {
    const [own, carrier] = [rows.group.codes[row] as number, code[rows.source[row] as number] as number];
    const place = places.place(own, carrier);
    group[place] = own;
    by[place] = carrier;
    events[place] = (events[place] as number) + (rows.event[row] as number);
    watched[place] = (watched[place] as number) + (rows.exit[row] as number) - (rows.entry[row] as number);
  }
  const { pairs } = places;
  return {
    ...{ group: group.subarray(0, pairs), by: by.subarray(0, pairs) },
    ...{ events: events.subarray(0, pairs), watched: watched.subarray(0, pairs) },
  };
}
