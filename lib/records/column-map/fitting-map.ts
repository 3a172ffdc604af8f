import { fedTables, neededColumns, type ColumnMap } from '../../../shared/column-map.ts';
import { distinctHeaders } from '../header-row.ts';
import { shownNames } from '../listed.ts';
import { baseName } from '../record-source.ts';
import { patternOf, wordOf } from './cell-words.ts';

/** A map that a file can be read by, where its headers stand, and what has changed since it was made. */
export interface FittedMap {
  readonly map: ColumnMap;
  /** By the headers as the map has them. */
  readonly places: ReadonlyMap<string, number>;
  /** Headers of the file that the map does not know, and headers it knew that are gone; none of them is used. */
  readonly added: readonly string[];
  readonly gone: readonly string[];
  /** Headers it reads that no row of a sparse file fills: they stand behind the last, where every cell is blank. */
  readonly blank: readonly string[];
}

/** The file's headers as a map names them: distinct, the blank ones behind the last left out. */
export function namedHeaders(headers: readonly string[]): string[] {
  const width = headers.findLastIndex((header) => header.trim() !== '') + 1;
  return distinctHeaders(headers.slice(0, width));
}

/** All headers that the map reads. */
export function headersUsed({ feeds, tables }: ColumnMap): string[] {
  const sources = Object.values(tables).flat();
  const used = sources.flatMap(({ from = [], unitFrom }) => [...from, ...(unitFrom ? [unitFrom] : [])]);
  return [...new Set([...used.map(({ header }) => header), ...('by' in feeds ? [feeds.by] : [])])];
}

/** The headers without which no row can be told or kept. */
function headersNeeded({ feeds, tables }: ColumnMap): Set<string> {
  const sources = fedTables(feeds).flatMap((table) =>
    (tables[table] ?? []).filter(({ ours }) => neededColumns(table).includes(ours)),
  );
  const headers = sources.flatMap(({ from = [] }) => from.map(({ header }) => header));
  return new Set([...headers, ...('by' in feeds ? [feeds.by] : [])]);
}

/** Below this share of headers in common a file is another kind of file. */
const leastInCommon = 0.5;

/**
 * The map that a file is read by: all headers that it reads are there, and most of the others. The
 * one with the most headers in common goes before others, one that names the file before one that does not.
 * @param sparse whether the file leaves out what is blank, so that a column blank in all rows is not named at all
 * @returns why there is none; null where no map comes near
 */
export function fittingMap(
  maps: readonly ColumnMap[],
  fileName: string,
  headers: readonly string[],
  sparse = false,
): FittedMap | string | null {
  const names = namedHeaders(headers);
  const near = maps
    .filter(({ recognised }) => named(recognised.fileName, fileName))
    .map((map) => ({ map, ...compared(map, names, sparse) }))
    .filter(({ share }) => share >= leastInCommon)
    .sort((a, b) => b.share - a.share || Number(isNamed(b.map)) - Number(isNamed(a.map)));
  const whole = near.filter(({ missing }) => missing.length === 0);
  const [best, next] = whole;
  if (best && next && next.share === best.share && isNamed(next.map) === isNamed(best.map))
    return `fits two column maps alike, ${best.map.source} and ${next.map.source}; a file name in one of them has to tell them apart`;
  if (best) {
    const { map, places, added, gone, blank } = best;
    return { map, places, added, gone, blank };
  }
  const [almost] = near;
  return almost ? changed(almost) : null;
}

const isNamed = ({ recognised }: ColumnMap): boolean => recognised.fileName !== undefined;

/** A sheet or a member of an archive goes by the name of the file that it is in, too. */
function named(pattern: string | undefined, fileName: string): boolean {
  if (pattern === undefined) return true;
  const whole = /([^\\/]+\.(?:xls[xm]|zip))[\\/][^\\/]*$/i.exec(fileName)?.[1];
  return [baseName(fileName), ...(whole === undefined ? [] : [whole])].some((name) =>
    patternOf(pattern).test(wordOf(name)),
  );
}

interface Compared {
  readonly places: Map<string, number>;
  readonly missing: readonly string[];
  readonly added: readonly string[];
  readonly gone: readonly string[];
  readonly blank: readonly string[];
  readonly share: number;
}

function compared(map: ColumnMap, names: readonly string[], sparse: boolean): Compared {
  const places = new Map(names.map((name, index) => [wordOf(name), index]));
  const known = new Set(map.recognised.headers.map(wordOf));
  const used = headersUsed(map);
  const all = [...new Set([...used, ...map.recognised.headers])];
  const absent = all.filter((header) => !places.has(wordOf(header)));
  const added = names.filter((name) => !known.has(wordOf(name)));
  // Beside a name that is new a missing one may have been renamed.
  const needed = sparse && added.length === 0 ? headersNeeded(map) : null;
  const blank = absent.filter((header) => needed && !needed.has(header) && used.includes(header));
  for (const header of blank) places.set(wordOf(header), names.length);
  const gone = absent.filter((header) => !blank.includes(header));
  const common = names.length - added.length;
  return {
    places: new Map(all.flatMap((header) => entryOf(header, places))),
    missing: used.filter((header) => !places.has(wordOf(header))),
    added,
    gone,
    blank,
    share: common / (names.length + gone.length || 1),
  };
}

function entryOf(header: string, places: ReadonlyMap<string, number>): [string, number][] {
  const place = places.get(wordOf(header));
  return place === undefined ? [] : [[header, place]];
}

function changed({ map, missing, added }: Compared & { readonly map: ColumnMap }): string {
  const fresh = added.length > 0 ? `; new in it: ${shownNames(added)}` : '';
  return `looks like ${map.source}, whose column map reads columns that are not there: ${shownNames(missing)}${fresh}; renamed columns have to be named in the map`;
}
