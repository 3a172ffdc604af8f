import type { View } from '../../shared/view.ts';
import type { CutCodes } from './columns/cut-codes.ts';
import { gather, placesWhere } from './gather.ts';
import { placeOfValue } from './group-order.ts';

/** One value combination of the cut columns, in the order shown. */
export interface GroupKey {
  readonly label: string;
  readonly by: Readonly<Record<string, string>>;
  readonly lives: number;
}

export interface GroupKeys {
  readonly groups: readonly GroupKey[];
  /** Groups and lives beyond `mostGroups`, counted so that none goes silently. */
  readonly beyond: { readonly groups: number; readonly lives: number };
}

/** More groups than this no table or reader takes in; the smallest are left out and counted. */
export const mostGroups = 200;

export interface Grouped {
  readonly keys: GroupKeys;
  /** The lives of the groups shown, and the group of each as an index into `keys.groups`. */
  readonly shown: Int32Array;
  readonly group: Int32Array;
}

type Sized = GroupKey & { readonly combined: number };

/** Groups the lives by the labels of the cut columns: each column's natural order, else by size. */
export function groupKeys(view: View, cuts: readonly CutCodes[], rows: Int32Array): Grouped {
  const combined = combinedCodes(cuts, rows);
  const sizes = new Map<number, number>();
  for (const code of combined) sizes.set(code, (sizes.get(code) ?? 0) + 1);
  if (cuts.length === 0) sizes.set(0, rows.length);
  const groups = [...sizes].map(([code, lives]) => named(view, cuts, code, lives));
  const largest = [...groups].sort((a, b) => b.lives - a.lives || a.combined - b.combined).slice(0, mostGroups);
  const firstSizes = firstColumnSizes(view, largest);
  largest.sort((a, b) => compare(view, firstSizes, a, b));
  const place = new Map(largest.map((group, index) => [group.combined, index]));
  const placeAt = combined.map((code) => place.get(code) ?? -1);
  const kept = placesWhere(rows.length, (at) => (placeAt[at] as number) >= 0);
  const [shown, group] = [gather(rows, kept), gather(placeAt, kept)];
  const beyond = { groups: groups.length - largest.length, lives: rows.length - shown.length };
  return { keys: { groups: largest.map(({ label, by, lives }) => ({ label, by, lives })), beyond }, shown, group };
}

/** One number a life for its labels taken together. */
function combinedCodes(cuts: readonly CutCodes[], rows: Int32Array): Int32Array {
  const combined = new Int32Array(rows.length);
  for (const { levels, codes } of cuts)
    for (let at = 0; at < rows.length; at++)
      combined[at] = (combined[at] as number) * levels.length + (codes[rows[at] as number] as number);
  return combined;
}

function named(view: View, cuts: readonly CutCodes[], combined: number, lives: number): Sized {
  let rest = combined;
  const values = [...cuts]
    .reverse()
    .map(({ levels }) => {
      const label = levels[rest % levels.length] as string;
      rest = Math.floor(rest / levels.length);
      return label;
    })
    .reverse();
  const by = Object.fromEntries(view.by.map((column, index) => [column, values[index] as string]));
  return { combined, lives, by, label: values.length === 0 ? 'all' : values.join(' · ') };
}

/** Lives under each value of the first column, so that its groups stay together when ordered by size. */
function firstColumnSizes(view: View, groups: readonly Sized[]): ReadonlyMap<string, number> {
  const sizes = new Map<string, number>();
  const first = view.by[0];
  if (first === undefined) return sizes;
  for (const { by, lives } of groups) sizes.set(by[first] as string, (sizes.get(by[first] as string) ?? 0) + lives);
  return sizes;
}

function compare(view: View, firstSizes: ReadonlyMap<string, number>, a: Sized, b: Sized): number {
  for (const [index, column] of view.by.entries()) {
    const [left, right] = [a.by[column] as string, b.by[column] as string];
    if (left === right) continue;
    const byPlace = placeOfValue(column, left) - placeOfValue(column, right);
    if (byPlace !== 0) return byPlace;
    const size = (value: string, group: Sized) => (index === 0 ? (firstSizes.get(value) ?? 0) : group.lives);
    return size(right, b) - size(left, a) || (left < right ? -1 : 1);
  }
  return 0;
}
