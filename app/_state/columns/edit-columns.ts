import {
  fedTables,
  mappableColumns,
  positionColumn,
  type ColumnMap,
  type ColumnPart,
  type ColumnSource,
} from '../../../shared/column-map.ts';
import { wordOf } from '../../../lib/records/column-map/cell-words.ts';
import { recordTables, type TableName } from '../../../shared/record-tables.ts';

/** Changes a map in the making. */
export type EditMap = (change: (map: ColumnMap) => ColumnMap) => void;

/** What one of their columns is read for: a column of ours in some tables, its side alone, or the unit of another. */
export interface ColumnUse {
  readonly ours: string;
  readonly as: 'cells' | 'side' | 'unit';
  readonly tables: readonly TableName[];
}

/** What a column is read for; the same in several tables is one use. */
export function usesOf(map: ColumnMap, header: string): ColumnUse[] {
  const found = new Map<string, { ours: string; as: ColumnUse['as']; tables: TableName[] }>();
  const add = (ours: string, as: ColumnUse['as'], table: TableName) => {
    const known = found.get(`${ours} ${as}`);
    if (known) known.tables.push(table);
    else found.set(`${ours} ${as}`, { ours, as, tables: [table] });
  };
  for (const table of fedTables(map.feeds))
    for (const { ours, from = [], unitFrom } of map.tables[table] ?? []) {
      const part = from.find((part) => part.header === header);
      if (part) add(ours, part.only === 'side' ? 'side' : 'cells', table);
      if (unitFrom?.header === header) add(ours, 'unit', table);
    }
  return [...found.values()];
}

/** Tables fed that have a column of ours. */
export const tablesWith = (map: ColumnMap, ours: string): TableName[] =>
  fedTables(map.feeds).filter((table) => mappableColumns(table).includes(ours));

export const sourcesOf = (map: ColumnMap, tables: readonly TableName[], ours: string): ColumnSource[] =>
  tables.flatMap((table) => map.tables[table]?.find((source) => source.ours === ours) ?? []);

/** A map with one of its columns changed in some tables; a column without a source is left out. */
export function withSource(
  map: ColumnMap,
  tables: readonly TableName[],
  ours: string,
  change: (source: ColumnSource | undefined) => ColumnSource | undefined,
): ColumnMap {
  const changed = tables.map((table) => {
    const sources = map.tables[table] ?? [];
    const at = sources.findIndex((source) => source.ours === ours);
    const made = change(sources[at]);
    const others = sources.filter((_, place) => place !== at);
    if (made === undefined) return [table, others];
    return [table, at < 0 ? [...sources, made] : sources.map((source, place) => (place === at ? made : source))];
  });
  return { ...map, tables: { ...map.tables, ...(Object.fromEntries(changed) as ColumnMap['tables']) } };
}

/** A part of what is absent where a value is undefined. */
export const withOnly = <Thing extends object>(
  thing: Thing,
  part: { [Key in keyof Thing]?: Thing[Key] | undefined },
): Thing =>
  Object.fromEntries(Object.entries({ ...thing, ...part }).filter(([, value]) => value !== undefined)) as Thing;

/** Their column is no longer read for something. */
export function withoutUse(map: ColumnMap, header: string, { ours, as, tables }: ColumnUse): ColumnMap {
  return withSource(map, tables, ours, (source) => {
    if (!source || as === 'unit') return source && withOnly(source, { unitFrom: undefined });
    const from = (source.from ?? []).filter((part) => part.header !== header);
    if (from.length === 0) return undefined;
    return withOnly(source, { from, joined: from.length > 1 ? source.joined : undefined });
  });
}

const isList = (table: TableName, ours: string): boolean =>
  recordTables[table].some(({ name, kind }) => name === ours && kind === 'list');

/** Their column is read for something more. A place or a list may have several; of anything else it takes the place. */
export function withUse(map: ColumnMap, header: string, { ours, as, tables }: ColumnUse): ColumnMap {
  const part: ColumnPart = as === 'side' ? { header, only: 'side' } : { header };
  return tables.reduce(
    (now, table) =>
      withSource(now, [table], ours, (source) => {
        if (as === 'unit') return source && { ...source, unitFrom: { header } };
        const joins = ours === positionColumn ? 'space' : isList(table, ours) ? 'list' : null;
        const from = source?.from ?? [];
        if (source && joins !== null && from.length > 0)
          return { ...source, from: [...from, part], joined: source.joined ?? joins };
        return withOnly<ColumnSource>({ ours, from: [part] }, { unit: source?.unit });
      }),
    map,
  );
}

/** The unit and words proposed for a column that was just chosen, unless something else was said meanwhile. */
export function withProposed(
  map: ColumnMap,
  tables: readonly TableName[],
  header: string,
  made: ColumnSource,
): ColumnMap {
  return withSource(map, tables, made.ours, (source) => {
    const part = source?.from?.find((part) => part.header === header);
    if (!source || !part || part.words !== undefined) return source;
    const { words } = made.from?.[0] ?? {};
    const from = source.from?.map((one) => (one === part ? withOnly(part, { words }) : one));
    return withOnly(source, {
      from,
      unit: source.unit ?? made.unit,
      partedBy: source.partedBy ?? made.partedBy,
      day: source.day ?? made.day,
    });
  });
}

/** Words with what one of them means, in the form that maps have; undefined = nothing is said of it. */
export function withMeaning<Meaning extends string>(
  words: Readonly<Record<string, Meaning>>,
  word: string,
  meant: Meaning | undefined,
): Record<string, Meaning> {
  const { [wordOf(word)]: _, ...others } = words;
  return meant === undefined ? others : { ...others, [wordOf(word)]: meant };
}

/** What a word of their column means; undefined = as it stands. */
export function withWord(
  map: ColumnMap,
  tables: readonly TableName[],
  ours: string,
  header: string,
  word: string,
  meant: string | undefined,
): ColumnMap {
  return withSource(map, tables, ours, (source) => {
    if (!source) return source;
    const from = (source.from ?? []).map((part) => {
      if (part.header !== header) return part;
      const words = withMeaning(part.words ?? {}, word, meant);
      return withOnly(part, { words: Object.keys(words).length > 0 ? words : undefined });
    });
    return { ...source, from };
  });
}
