import { adjustableLives, type AdjustableLives } from '../adjustment/adjustable-lives.ts';
import { adjustmentOf, type Adjustment } from '../adjustment/adjustment.ts';
import type { Asking } from '../asking.ts';
import { outcomeAsked, outcomeOf, type OutcomeAsked } from '../causes/outcome.ts';
import { askedLives, type AskedLives } from '../columns/asked-lives.ts';
import { agesOf, type LifeColumns } from '../columns/life-columns.ts';
import { gather } from '../gather.ts';
import { ended } from '../life-rows.ts';
import { scopeOf, type LeftOut, type Scope } from '../scope.ts';
import { comparedGroups, type ComparedGroups } from './compared-groups.ts';
import { deviationColumns, type DeviationColumns } from './deviation-covariates.ts';
import { findingShops } from './finding-shops.ts';

/** What is compared: shops, or own shops against vendors and the roadside. */
export type Compared = 'shop' | 'site';

export const comparedColumn = (view: { readonly by: readonly string[] }): Compared =>
  view.by.includes('site') ? 'site' : 'shop';

/** Everything the comparison of shops reads; columns are one a life. */
export interface ShopsEvidence {
  readonly asked: OutcomeAsked;
  readonly compared: Compared;
  readonly lives: AskedLives;
  readonly columns: LifeColumns;
  /** Places of the lives in the lives table. */
  readonly rows: Int32Array;
  readonly groups: ComparedGroups;
  readonly entry: Float64Array;
  readonly exit: Float64Array;
  readonly event: Uint8Array;
  /** 1 where the part came off for no stated reason. */
  readonly removed: Uint8Array;
  readonly miles: Float64Array;
  readonly installDay: Float64Array;
  readonly adjustment: Adjustment;
  readonly deviations: DeviationColumns;
  /** Per life, the shop that found how it ended; null where no records tell. */
  readonly foundBy: ComparedGroups | null;
  readonly scope: Scope;
  readonly leftOut: AdjustableLives['leftOut'] & Pick<LeftOut, 'estimated'>;
}

export async function shopsEvidence(asking: Asking): Promise<ShopsEvidence> {
  const { source, view, signal } = asking;
  const asked = outcomeAsked(view);
  const compared = comparedColumn(view);
  const lives = askedLives(source, asked.component);
  const scope = await scopeOf({ ...asking, view: { ...view, by: [] } }, lives);
  const columns = await lives.columns(signal);
  const able = adjustableLives(scope.rows, columns, agesOf(columns, view.axis));
  const { exit, event, cause } = await outcomeOf(view, lives, able, columns, signal);
  const { rows, entry } = able;
  const finders = await findingShops(asking, asked.component, columns.rows);
  const cut = (column: string) => lives.cut(column, signal);
  const byFinder = compared === 'shop' && view.attribution === 'finding' ? finders : null;
  return {
    ...{ asked, compared, lives, columns, rows, entry, exit, event, scope },
    groups: comparedGroups(compared, byFinder ?? (await cut(compared)), rows),
    removed: cause.map((code) => (code === ended.removedUnknown ? 1 : 0)),
    miles: gather(columns.exposure, rows),
    installDay: gather(columns.installDay, rows),
    adjustment: await adjustmentOf(asking, lives, { rows, event, compared: [compared], strata: [] }),
    deviations: await deviationColumns(cut, rows),
    foundBy: finders && comparedGroups('shop', finders, rows),
    leftOut: { ...able.leftOut, estimated: scope.leftOut.estimated },
  };
}
