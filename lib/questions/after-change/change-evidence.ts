import { adjustableLives, type AdjustableLives } from '../adjustment/adjustable-lives.ts';
import { adjustmentOf, type Adjustment } from '../adjustment/adjustment.ts';
import type { Asking } from '../asking.ts';
import { outcomeAsked, outcomeOf, type OutcomeAsked } from '../causes/outcome.ts';
import { askedLives, type AskedLives } from '../columns/asked-lives.ts';
import { agesOf, type LifeColumns } from '../columns/life-columns.ts';
import { gather, placesWhere } from '../gather.ts';
import { scopeOf, type LeftOut } from '../scope.ts';
import { deviationColumns, type DeviationColumns } from '../shops/deviation-covariates.ts';
import { arrivingDays, followedTo, lastDay, type FollowedLives, type Uncut } from './followed-lives.ts';

export const dayNumber = (iso: string): number => Date.parse(`${iso}T00:00:00Z`) / 86_400_000;
export const dayText = (day: number): string => new Date(Math.round(day) * 86_400_000).toISOString().slice(0, 10);

/** Everything the comparison of before and after reads; columns are one a life. */
export interface ChangeEvidence extends FollowedLives {
  readonly asked: OutcomeAsked;
  readonly lives: AskedLives;
  readonly columns: LifeColumns;
  /** Labels of shops, and the place of each life's among them. */
  readonly shops: readonly string[];
  readonly shop: Int32Array;
  readonly miles: Float64Array;
  readonly adjustment: Adjustment;
  readonly deviations: DeviationColumns;
  /** The day lives are followed to. */
  readonly followedTo: number;
  readonly leftOut: AdjustableLives['leftOut'] &
    Pick<LeftOut, 'estimated'> & { readonly noDay: number; readonly arriving: number };
}

export async function changeEvidence(asking: Asking): Promise<ChangeEvidence> {
  const { source, view, signal } = asking;
  const asked = outcomeAsked(view);
  const lives = askedLives(source, asked.component);
  // The dates of installation are what is compared.
  const wide = { ...view, by: [], installedFrom: null, installedTo: null };
  const scope = await scopeOf({ ...asking, view: wide }, lives);
  const columns = await lives.columns(signal);
  const able = adjustableLives(scope.rows, columns, agesOf(columns, view.axis));
  const { exit, cause, event } = await outcomeOf(view, lives, able, columns, signal);
  const dated = placesWhere(able.rows.length, (at) => !Number.isNaN(columns.installDay[able.rows[at] as number]));
  const rows = gather(able.rows, dated);
  const uncut: Uncut = {
    ...{ rows, installDay: gather(columns.installDay, rows), entry: gather(able.entry, dated) },
    ...{ exit: gather(exit, dated), event: gather(event, dated), cause: gather(cause, dated) },
    entryMonths: gather(columns.months.entry, rows),
    exitMonths: exitMonths(columns, rows, gather(able.exit, dated), gather(exit, dated)),
  };
  const end = source.account.observedTo;
  const day = lastDay(uncut, end === null ? Infinity : dayNumber(end)) - arrivingDays;
  const followed = followedTo(uncut, day);
  const shop = await lives.cut('shop', signal);
  return {
    ...followed,
    ...{ asked, lives, columns, followedTo: day, shops: shop.levels, shop: gather(shop.codes, followed.rows) },
    miles: milesOf(view.axis, followed, columns),
    adjustment: await adjustmentOf(asking, lives, { rows: followed.rows, event: followed.event, compared: [] }),
    deviations: await deviationColumns((column) => lives.cut(column, signal), followed.rows),
    leftOut: {
      ...able.leftOut,
      ...{ estimated: scope.leftOut.estimated, noDay: able.rows.length - dated.length },
      arriving: rows.length - followed.rows.length,
    },
  };
}

/** A life that ends at an earlier outcome ends as much earlier by the calendar. */
function exitMonths({ months }: LifeColumns, rows: Int32Array, whole: Float64Array, exit: Float64Array): Float64Array {
  return Float64Array.from(rows, (row, at) => {
    const share = (exit[at] as number) / (whole[at] as number);
    const end = months.exit[row] as number;
    return share < 1 ? Math.max(end * share, months.entry[row] as number) : end;
  });
}

function milesOf(
  axis: 'miles' | 'months',
  { rows, entry, exit }: FollowedLives,
  { exposure }: LifeColumns,
): Float64Array {
  return axis === 'miles' ? exit.map((end, at) => end - (entry[at] as number)) : gather(exposure, rows);
}
