import { changedMap, type MapChange } from '../../../lib/records/column-map/change-map.ts';
import type { ColumnMap, ColumnSource, PositionRule } from '../../../shared/column-map.ts';
import type { TableName } from '../../../shared/record-tables.ts';
import type { Ask } from '../columns-desk.ts';

/**
 * Puts an answer into a draft. Its changes name places in the map as it was proposed; the draft may have
 * moved on, so that columns are found by their names and rules by their spellings.
 * @param before the option chosen until now, which is undone
 */
export function withAnswer(
  draft: ColumnMap,
  proposed: ColumnMap,
  ask: Ask,
  option: number,
  before?: number,
): ColumnMap {
  const undone = before === undefined ? [] : (ask.options[before]?.set ?? []);
  const made = ask.options[option]?.set ?? [];
  const back = undone.reduce((map, change) => without(map, proposed, change), draft);
  return made.reduce((map, change) => settled(map, proposed, change), back);
}

/** The option that a draft holds already: the first whose changes all stand in it. */
export function answerIn(draft: ColumnMap, proposed: ColumnMap, { options }: Ask): number | undefined {
  const holds = (change: MapChange) => same(settled(draft, proposed, change), draft);
  const at = options.findIndex(({ set }) => set.length > 0 && set.every(holds));
  const none = options.findIndex(({ set }) => set.length === 0);
  return at >= 0 ? at : none >= 0 ? none : undefined;
}

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/** Which column of ours a change is about, and whether it adds it. */
function columnOf(proposed: ColumnMap, { path, value }: MapChange) {
  const [first, table, at, ...rest] = path;
  if (first !== 'tables' || typeof at !== 'number') return null;
  const known = proposed.tables[table as TableName]?.[at];
  const ours = known?.ours ?? (value as ColumnSource | undefined)?.ours;
  return ours === undefined ? null : { table: table as TableName, ours, rest, adds: known === undefined };
}

const isRule = ({ path }: MapChange): boolean => path[0] === 'positions' && path[1] === 'rules';

function settled(map: ColumnMap, proposed: ColumnMap, change: MapChange): ColumnMap {
  if (isRule(change)) return withRule(map, change.value as PositionRule, true);
  const column = columnOf(proposed, change);
  if (!column) return changedMap(map, [change]);
  const { table, ours, rest, adds } = column;
  const sources = map.tables[table] ?? [];
  const at = sources.findIndex((source) => source.ours === ours);
  if (at < 0 && !adds) return map;
  const path = ['tables', table, at < 0 ? sources.length : at, ...rest];
  return changedMap(map, [{ path, value: change.value }]);
}

function without(map: ColumnMap, proposed: ColumnMap, change: MapChange): ColumnMap {
  if (isRule(change)) return withRule(map, change.value as PositionRule, false);
  const column = columnOf(proposed, change);
  if (!column) return changedMap(map, [{ path: change.path, value: valueAt(proposed, change.path) }]);
  const { table, ours, adds } = column;
  if (!adds) return settled(map, proposed, { path: change.path, value: valueAt(proposed, change.path) });
  // Something else may fill the column by now.
  const sources = (map.tables[table] ?? []).filter((source) => source.ours !== ours || !same(source, change.value));
  return { ...map, tables: { ...map.tables, [table]: sources } };
}

const valueAt = (map: unknown, path: readonly (string | number)[]): unknown =>
  path.reduce<unknown>((held, step) => (held as Record<string | number, unknown> | undefined)?.[step], map);

/** A map with a rule in the place of the one for the same spelling, or without it. */
export function withRule(map: ColumnMap, rule: PositionRule, holds: boolean): ColumnMap {
  const { rules = [], ...positions } = map.positions ?? {};
  const others = rules.filter(({ spelling, roles }) => spelling !== rule.spelling || roles !== rule.roles);
  const left = holds ? [...others, rule] : others;
  return { ...map, positions: left.length > 0 ? { ...positions, rules: left } : positions };
}
