import type { View } from '../../shared/view.ts';
import * as words from '../../shared/vocabulary.ts';
import { textColumn, numberColumn, type ResultTable } from '../engine/engine.ts';
import { identifier, joinSql, sql, type Statement } from '../engine/statement.ts';
import { labelSql, scopeSql } from './scope.ts';

/** One value combination of the cut columns, in the order shown. */
export interface GroupKey {
  readonly label: string;
  readonly by: Readonly<Record<string, string>>;
  readonly lives: number;
}

export interface GroupKeys {
  readonly groups: readonly GroupKey[];
  /** For each code given by the query: its index in `groups`, or -1 where the group is not shown. */
  readonly ofCode: Int32Array;
  /** Groups and lives beyond `mostGroups`, counted so that none goes silently. */
  readonly beyond: { readonly groups: number; readonly lives: number };
}

/** More groups than this no table or reader takes in; the smallest are left out and counted. */
export const mostGroups = 200;

const labelNames = ['label_0', 'label_1'] as const;
export const labelColumns = (view: View): Statement =>
  joinSql(
    view.by.map((column, index) => sql`${labelSql(column)} as ${identifier(labelNames[index] as string)}`),
    ', ',
  );

const names = (view: View): Statement =>
  joinSql(
    view.by.map((_, index) => sql`${identifier(labelNames[index] as string)}`),
    ', ',
  );

/** `cut_group` of each row of `scoped`: the rank of its labels, the order in which `groupKeysStatement` lists them. */
export const groupCode = (view: View): Statement =>
  view.by.length === 0 ? sql`0` : sql`dense_rank() over (order by ${names(view)}) - 1`;

/** The groups of a cut in code order, with their lives. */
export function groupKeysStatement(view: View, table: string): Statement {
  if (view.by.length === 0)
    return sql`select cast(count(*) as double) as lives from ${identifier(table)} where ${scopeSql(view)}`;
  return sql`select ${labelColumns(view)}, cast(count(*) as double) as lives
from ${identifier(table)} where ${scopeSql(view)} group by ${names(view)} order by ${names(view)}`;
}

const listedOrder: Readonly<Record<string, readonly string[]>> = {
  role: words.roles,
  side: words.sides,
  site: words.sites,
  lubricant: words.lubricants,
  hub_build: words.hubBuilds,
  hub_material: words.hubMaterials,
  install_kind: ['original', 'replacement'],
  mileage_quality: ['measured', 'interpolated', 'extrapolated'],
};
const numbered = new Set(['axle', 'position', 'life_number', 'prior_failures', 'install_year']);

/** Where a value stands among its column's; equal places are settled by size. `unknown` always comes last. */
function place(column: string, value: string): number {
  if (value === 'unknown') return 1e9;
  if (column.startsWith('dev_')) return ['yes', 'no'].indexOf(value);
  if (numbered.has(column)) return Number.parseFloat(value) + (value.endsWith('right') ? 0.5 : 0);
  const order = listedOrder[column];
  if (!order) return 0;
  const at = order.indexOf(value);
  return at < 0 ? order.length : at;
}

/** Groups in the order shown (each column's natural order, else by size), the largest `mostGroups` of them. */
export function readGroupKeys(view: View, result: ResultTable): GroupKeys {
  const lives = numberColumn(result, 'lives');
  const labels = view.by.map((_, index) => textColumn(result, labelNames[index] as string));
  const groups = Array.from(lives, (size, code) => {
    const values = labels.map((column) => column[code] ?? 'unknown');
    return {
      ...{ code, lives: size, label: values.length === 0 ? 'all' : values.join(' · ') },
      by: Object.fromEntries(view.by.map((column, index) => [column, values[index] as string])),
    };
  });
  const largest = [...groups].sort((a, b) => b.lives - a.lives).slice(0, mostGroups);
  const sizes = firstColumnSizes(view, largest);
  largest.sort((a, b) => compare(view, sizes, a, b));
  const ofCode = new Int32Array(groups.length).fill(-1);
  largest.forEach(({ code }, index) => (ofCode[code] = index));
  const shown = largest.reduce((sum, group) => sum + group.lives, 0);
  const total = groups.reduce((sum, group) => sum + group.lives, 0);
  return {
    groups: largest.map(({ label, by, lives: size }) => ({ label, by, lives: size })),
    ofCode,
    beyond: { groups: groups.length - largest.length, lives: total - shown },
  };
}

type Sized = GroupKey & { readonly code: number };

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
    const byPlace = place(column, left) - place(column, right);
    if (byPlace !== 0) return byPlace;
    const size = (value: string, group: Sized) => (index === 0 ? (firstSizes.get(value) ?? 0) : group.lives);
    return size(right, b) - size(left, a) || (left < right ? -1 : 1);
  }
  return 0;
}
