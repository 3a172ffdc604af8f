import type { Estimate, Series } from '../../../shared/finding.ts';
import { proportion, proportionDifference } from '../../statistics/index.ts';
import { noEstimate, toEstimate } from '../estimate.ts';
import { deviationValues, type DeviationColumns } from '../shops/deviation-covariates.ts';
import { toldOf } from '../shops/recording.ts';

const [yes, no] = [deviationValues.indexOf('yes'), deviationValues.indexOf('no')];

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
  };
  readonly before: Told;
  readonly after: Told;
  /** Share of all that could be told of deviations which is, before and after. */
  readonly recorded: readonly [number | null, number | null];
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

/**
 * Was it followed? How many jobs carried one of the deviations, before and after.
 * @param codes those that should get rarer; none = any
 */
export function prevalences(
  deviations: DeviationColumns,
  cells: readonly [Int32Array, Int32Array],
  codes: readonly string[],
  level: number,
): Prevalences {
  const columns = [...deviations].flatMap(([code, values]) =>
    codes.length === 0 || codes.includes(code) ? [values] : [],
  );
  const [before, after] = [toldAny(columns, cells[0]), toldAny(columns, cells[1])];
  const recorded = (places: Int32Array) => {
    const { told, of } = toldOf(deviations, places);
    return of === 0 ? null : told / of;
  };
  return {
    estimates: {
      prevalenceBefore: shareOf(before, level),
      prevalenceAfter: shareOf(after, level),
      prevalenceDifference: difference(after, before, level),
    },
    ...{ before, after, recorded: [recorded(cells[0]), recorded(cells[1])] },
  };
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
