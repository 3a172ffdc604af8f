import type { ColumnMap } from '../../../shared/column-map.ts';

/** One place of a map and what it is to hold; nothing takes the place out. */
export interface MapChange {
  readonly path: readonly (string | number)[];
  readonly value?: unknown;
}

/** A map with changes made; the one given stays as it is. Whether the result is a map is for its schema to say. */
export const changedMap = (map: ColumnMap, changes: readonly MapChange[]): ColumnMap =>
  changes.reduce<unknown>((now, { path, value }) => withChange(now, path, value), map) as ColumnMap;

function withChange(held: unknown, [step, ...rest]: readonly (string | number)[], value: unknown): unknown {
  if (step === undefined) return value;
  if (Array.isArray(held)) {
    const list: unknown[] = [...(held as unknown[])];
    const made = withChange(list[Number(step)], rest, value);
    // Beyond its end a list grows by one: a place left empty in it would be no map.
    if (made === undefined) list.splice(Number(step), 1);
    else list[Math.min(Number(step), list.length)] = made;
    return list;
  }
  const { [step]: before, ...others } = (held ?? {}) as Record<string, unknown>;
  const made = withChange(before, rest, value);
  return made === undefined ? others : { ...others, [step]: made };
}
