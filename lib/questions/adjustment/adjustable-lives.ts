import type { LifeColumns, Ages } from '../columns/life-columns.ts';
import { gather } from '../gather.ts';

/** Lives that an adjusted model can speak of, and those it cannot, counted so that none goes silently. */
export interface AdjustableLives {
  /** Places in the lives table. */
  readonly rows: Int32Array;
  readonly entry: Float64Array;
  readonly exit: Float64Array;
  readonly leftOut: {
    /** Begun by no job in these records. */
    readonly notReplacement: number;
    readonly unknownStart: number;
    /** Known start, but not a mile of it was watched. */
    readonly notWatched: number;
  };
}

/** Replacement lives with a known start that were watched for some of it (record contract 5.2, 5.6). */
export function adjustableLives(chosen: Int32Array, columns: LifeColumns, ages: Ages): AdjustableLives {
  const kept = new Int32Array(chosen.length);
  let [rows, notReplacement, unknownStart, notWatched] = [0, 0, 0, 0];
  for (const row of chosen) {
    if (columns.replacement[row] === 0) notReplacement++;
    else if (Number.isNaN(ages.entry[row])) unknownStart++;
    else if (!((ages.exit[row] as number) > (ages.entry[row] as number))) notWatched++;
    else kept[rows++] = row;
  }
  const places = kept.subarray(0, rows);
  return {
    ...{ rows: places, entry: gather(ages.entry, places), exit: gather(ages.exit, places) },
    leftOut: { notReplacement, unknownStart, notWatched },
  };
}
