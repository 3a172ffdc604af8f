import type { View } from '../../../shared/view.ts';

/** The view narrowed to one group; a column that has come down to one value tells nothing apart any more. */
export function narrowedTo(view: View, by: Readonly<Record<string, string>>): Partial<View> {
  const chosen = Object.fromEntries(Object.entries(by).map(([column, value]) => [column, [value]]));
  return { where: { ...view.where, ...chosen }, by: view.by.filter((column) => by[column] === undefined) };
}
