import type { View } from '../../shared/view.ts';
import type { Asking } from './asking.ts';
import type { AskedLives } from './columns/asked-lives.ts';
import type { Scope } from './scope.ts';

/** Cuts that only say where a part sits: nobody reads them as what made it fail. */
const places = new Set(['role', 'axle', 'side', 'position', 'unit_id', 'mileage_quality']);

/** What groups may differ in besides the cut; nothing where the cut invites no reading as cause. */
export const mixColumns = (view: View): string[] =>
  view.by.some((column) => !places.has(column))
    ? ['role', 'lubricant', 'hub_build', 'shop', 'duty'].filter((column) => !view.by.includes(column))
    : [];

/** Miles by attribute, value and group shown. */
export type Mix = ReadonlyMap<string, ReadonlyMap<string, Float64Array>>;

/** Miles of each group by each value of each attribute it may differ in. */
export async function mixOf({ view, signal }: Asking, lives: AskedLives, scope: Scope): Promise<Mix> {
  const { exposure } = await lives.columns(signal);
  const mix = new Map<string, Map<string, Float64Array>>();
  for (const attribute of mixColumns(view)) {
    const { levels, codes } = await lives.cut(attribute, signal);
    const sums = levels.map(() => new Float64Array(scope.keys.groups.length));
    for (let at = 0; at < scope.rows.length; at++) {
      const [row, group] = [scope.rows[at] as number, scope.group[at] as number];
      const sum = sums[codes[row] as number] as Float64Array;
      sum[group] = (sum[group] as number) + (exposure[row] as number);
    }
    mix.set(attribute, new Map(levels.map((label, code) => [label, sums[code] as Float64Array])));
  }
  return mix;
}
