import { columnMapVersion, fedTables, type ColumnMap, type Feeds } from '../../../../shared/column-map.ts';
import type { TableName } from '../../../../shared/record-tables.ts';
import { namedHeaders } from '../fitting-map.ts';
import { feedsOf } from '../mapped-rows.ts';
import { sampleRow } from '../sample.ts';
import type { UnitRoles } from '../unit-roles.ts';
import { decimalOf, profileOf } from './column-profile.ts';
import { tableProposal } from './column-sources.ts';
import { dateOrderOf } from './date-order.ts';
import { dayColumns, fileAsks } from './file-asks.ts';
import { placeAsks } from './place-asks.ts';
import type { Ask, Proposal } from './proposal.ts';
import { rowsFeed } from './rows-feed.ts';

/**
 * Proposes how a file becomes ours, from its headers and some of its rows: which column is which, units,
 * the order of days, the decimal mark, words. What cannot be told is asked, not guessed.
 * @param headers as they stand in the file
 * @param rows cells at the places of the headers, as they are shown
 * @param roles axles of the units, where the units table is known already: places are then tried on them
 * @param told what the rows feed, where somebody said so
 */
export function proposeMap(
  fileName: string,
  headers: readonly string[],
  rows: readonly (readonly string[])[],
  roles: UnitRoles,
  told?: Feeds,
): Proposal {
  const names = namedHeaders(headers);
  const found = decimalOf(rows);
  const decimal = found ?? 'point';
  const profilesOf = (rows: readonly (readonly string[])[]) =>
    names.map((name, place) => profileOf(name, place, rows, decimal));
  const all = profilesOf(rows);
  const { feeds, sure, unseen } = told
    ? { feeds: told, sure: true, unseen: [] }
    : rowsFeed(fileName, all, (picks) => profilesOf(rows.filter(picks)));
  const by = 'by' in feeds ? feeds.by : null;
  const tables = fedTables(feeds).map((table) => {
    const own = 'by' in feeds ? rowsOf(table, { feeds }, names, rows) : rows;
    return { table, ...tableProposal(table, own === rows ? all : profilesOf(own), by) };
  });
  // Which column is the day of a table may still be asked: any that can be it says the order of days.
  const days = tables.flatMap(({ sources, profiles }) => {
    const found = sources.filter(({ ours }) => /(^|_)date$/.test(ours)).flatMap(({ ours }) => profiles.get(ours) ?? []);
    return found.length > 0 ? found : dayColumns(all);
  });
  const { order, undecided } = dateOrderOf(days);
  const used = new Set(tables.flatMap(({ profiles }) => [...profiles.values()].flat().map(({ header }) => header)));
  const blanks = [...new Set(all.filter(({ header }) => used.has(header)).flatMap(({ blanks }) => blanks))];
  const map: ColumnMap = {
    version: columnMapVersion,
    source: sourceName(fileName),
    recognised: { headers: names },
    feeds,
    tables: Object.fromEntries(tables.map(({ table, sources }) => [table, sources])),
    dates: {
      ...(order ? { order } : {}),
      ...(days.some(({ serials }) => serials > 0.5) ? { serials: '1900' as const } : {}),
    },
    numbers: { decimal },
    ...(blanks.length > 0 ? { blanks } : {}),
  };
  const asks = [
    ...fileAsks({ fileName, map, profiles: all, dateExample: undecided, decimalKnown: found !== null, sure, unseen }),
    ...tables.flatMap(({ asks }) => asks),
    ...placeAsks(map, names, rows, roles),
  ];
  return { map, columns: tables.flatMap(({ columns }) => columns), asks: askedOnce(asks) };
}

/** What is asked about a column that feeds several tables is asked once, and settles all of them. */
function askedOnce(asks: readonly Ask[]): Ask[] {
  const once = new Map<string, Ask>();
  for (const ask of asks) {
    const known = once.get(ask.id);
    const options = known?.options.map(({ label, set }, at) => ({
      label,
      set: [...set, ...(ask.options[at]?.set ?? [])],
    }));
    once.set(ask.id, options ? { ...ask, options } : ask);
  }
  return [...once.values()];
}

/** `exports/north_WO_2024-03.csv` goes by `north WO`: next month's file is of the same source. */
const sourceName = (fileName: string): string =>
  fileName
    .replace(/^.*[\\/]/, '')
    .replace(/(\.[a-z]{2,8}){1,2}$/i, '')
    .replaceAll('_', ' ')
    .replace(/(?<=\p{L}.*)[\s.-]*(?:19|20)\d{2}(?:[-. ]?\d{1,2}){0,2}\s*$/u, '')
    .trim() || 'source';

/** The rows of the sample that feed a table. */
function rowsOf(
  table: TableName,
  { feeds }: Pick<ColumnMap, 'feeds'>,
  names: readonly string[],
  rows: readonly (readonly string[])[],
): readonly (readonly string[])[] {
  const places = new Map(names.map((name, place) => [name, place]));
  const told = feedsOf({ feeds } as ColumnMap, places);
  const cut = sampleRow();
  return rows.filter((row) => told(cut.at(row)) === table);
}
