import { deviationColumn } from '../../../shared/deviations.ts';
import type { View } from '../../../shared/view.ts';

/** The view narrowed to one group; a column that has come down to one value tells nothing apart any more. */
export function narrowedTo(view: View, by: Readonly<Record<string, string>>): Partial<View> {
  const chosen = Object.fromEntries(Object.entries(by).map(([column, value]) => [column, [value]]));
  return { where: { ...view.where, ...chosen }, by: view.by.filter((column) => by[column] === undefined) };
}

/** A deviation of the ranking is looked into; any other group is what the view is narrowed to. */
export const lookedInto = (view: View, { deviation, ...by }: Readonly<Record<string, string>>): Partial<View> =>
  deviation === undefined ? narrowedTo(view, by) : { deviation };

/** On the front page a deviation tells every answer apart; any other group is what all are narrowed to. */
export const chosenForAll = (view: View, { deviation, ...by }: Readonly<Record<string, string>>): Partial<View> =>
  deviation === undefined ? narrowedTo(view, by) : { by: [deviationColumn(deviation)] };
