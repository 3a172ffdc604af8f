import type { Estimate, Series } from '../../../shared/finding.ts';
import {
  proportion,
  proportionDifference,
  stratifiedDifference,
  type CategoryColumn,
  type StratifiedDifference,
} from '../../statistics/index.ts';
import { noEstimate, toEstimate } from '../estimate.ts';
import { deviationValues, type DeviationColumns } from '../shops/deviation-covariates.ts';
import { valueCounts } from '../shops/recording.ts';

const [yes, no, unknown] = deviationValues.map((_, index) => index) as [number, number, number, number];

/** Jobs with a deviation, of those whose record tells. */
interface Told {
  readonly withIt: number;
  readonly told: number;
}

export interface Prevalences {
  readonly estimates: {
    readonly prevalenceBefore: Estimate;
    readonly prevalenceAfter: Estimate;
    readonly prevalenceDifference: Estimate;
    readonly prevalenceDifferenceLikeForLike: Estimate;
  };
  readonly before: Told;
  readonly after: Told;
  /** Deviation by deviation over like weights, so that more or less being written down is no difference. */
  readonly likeForLike: StratifiedDifference;
  /** Deviations written down much oftener, or less often, after than before. */
  readonly unlike: readonly Unlike[];
}

/** Of the jobs where a deviation can be, the shares whose record tells of it. */
export interface Unlike {
  readonly code: string;
  readonly toldBefore: number;
  readonly toldAfter: number;
}

/** A job carries one if any of these is yes; it tells if any is yes or no. */
function toldAny(columns: readonly Uint8Array[], places: Int32Array): Told {
  let [withIt, told] = [0, 0];
  for (const at of places) {
    const has = columns.some((values) => values[at] === yes);
    if (has) withIt++;
    if (has || columns.some((values) => values[at] === no)) told++;
  }
  return { withIt, told };
}

const method = 'jobs with at least one recorded, of those whose record tells; Wilson';

function shareOf({ withIt, told }: Told, level: number): Estimate {
  const about = { level, unit: 'share', method, reason: 'no job here tells of a deviation' };
  return told === 0 ? noEstimate(about) : toEstimate(proportion({ events: withIt, total: told }, { level }), about);
}

function difference(after: Told, before: Told, level: number): Estimate {
  const about = {
    level,
    unit: 'share',
    method: 'after less before; Newcombe’s score limits',
    reason: 'one side tells of no deviation',
  };
  if (after.told === 0 || before.told === 0) return noEstimate(about);
  return toEstimate(
    proportionDifference({ events: [after.withIt, before.withIt], total: [after.told, before.told] }, { level }),
    about,
  );
}

export interface Jobs {
  readonly deviations: DeviationColumns;
  /** Vehicle of each life: jobs on one share habits. */
  readonly vehicles: { readonly levels: readonly string[]; readonly codes: ArrayLike<number> };
}

/**
 * Was it followed? How many jobs carried one of the deviations, before and after.
 * @param codes those that should get rarer; none = any
 */
export function prevalences(
  { deviations, vehicles }: Jobs,
  cells: readonly [Int32Array, Int32Array],
  codes: readonly string[],
  level: number,
): Prevalences {
  const asked = [...deviations].filter(([code]) => codes.length === 0 || codes.includes(code));
  const columns = asked.map(([, values]) => values);
  const [before, after] = [toldAny(columns, cells[0]), toldAny(columns, cells[1])];
  const likeForLike = stratifiedDifference(answers(columns, vehicles, cells), { level });
  return {
    estimates: {
      prevalenceBefore: shareOf(before, level),
      prevalenceAfter: shareOf(after, level),
      prevalenceDifference: difference(after, before, level),
      prevalenceDifferenceLikeForLike: toEstimate(likeForLike, {
        ...{ level, unit: 'share', reason: 'no deviation is told of both before and after' },
        method: 'deviation by deviation, after less before, weights of Mantel and Haenszel; limits allow for vehicles',
      }),
    },
    ...{ before, after, likeForLike },
    unlike: asked.flatMap(([code, values]) => unlikeWriting(code, values, cells, level)),
  };
}

/** One row for each deviation that a job's record tells of; of a million jobs there are many. */
function answers(columns: readonly Uint8Array[], vehicles: Jobs['vehicles'], cells: readonly Int32Array[]) {
  const tells = (values: Uint8Array, at: number) => values[at] === yes || values[at] === no;
  const told = (values: Uint8Array, places: Int32Array) =>
    places.reduce((sum, at) => sum + (tells(values, at) ? 1 : 0), 0);
  const rows = cells.reduce((sum, places) => columns.reduce((all, values) => all + told(values, places), sum), 0);
  const [event, group] = [new Uint8Array(rows), new Uint8Array(rows)];
  const [stratum, vehicle] = [new Int32Array(rows), new Int32Array(rows)];
  let row = 0;
  for (const [side, places] of cells.entries()) {
    for (const [code, values] of columns.entries()) {
      for (const at of places) {
        if (!tells(values, at)) continue;
        event[row] = values[at] === yes ? 1 : 0;
        group[row] = side;
        stratum[row] = code;
        vehicle[row++] = vehicles.codes[at] as number;
      }
    }
  }
  const strata: CategoryColumn = { levels: columns.map((_, code) => String(code)), codes: stratum };
  return { event, group, strata, cluster: { levels: vehicles.levels, codes: vehicle } };
}

/** Told apart by this much, and by more than chance, the shares are of unlike records. */
const mostWrittenApart = 0.1;

function unlikeWriting(code: string, values: Uint8Array, cells: readonly [Int32Array, Int32Array], level: number) {
  const [before, after] = cells.map((places) => {
    const counts = valueCounts(values, places);
    const told = (counts[yes] as number) + (counts[no] as number);
    return { told, of: told + (counts[unknown] as number) };
  }) as [{ told: number; of: number }, { told: number; of: number }];
  if (before.of === 0 || after.of === 0) return [];
  const apart = proportionDifference({ events: [after.told, before.told], total: [after.of, before.of] }, { level });
  const chance = (apart.lower as number) <= 0 && (apart.upper as number) >= 0;
  if (chance || Math.abs(apart.value as number) <= mostWrittenApart) return [];
  return [{ code, toldBefore: before.told / before.of, toldAfter: after.told / after.of }];
}

/** Every deviation told of on both sides: how often it was there before and after. */
export function prevalenceSeries(
  deviations: DeviationColumns,
  cells: readonly [Int32Array, Int32Array],
  level: number,
): Series[] {
  return [...deviations].flatMap(([code, values]) => {
    const [before, after] = [toldAny([values], cells[0]), toldAny([values], cells[1])];
    if (before.told === 0 || after.told === 0 || before.withIt + after.withIt === 0) return [];
    const moved = difference(after, before, level);
    return [
      {
        ...{ name: 'deviation', group: code },
        columns: {
          withBefore: [before.withIt],
          toldBefore: [before.told],
          withAfter: [after.withIt],
          toldAfter: [after.told],
          difference: [moved.value],
          lower: [moved.lower],
          upper: [moved.upper],
        },
      },
    ];
  });
}
