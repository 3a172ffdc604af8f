// What is proposed for a file that nobody has a map for, beside the map that somebody who knows the shop would confirm.
import { beforeAll, describe, expect, it } from 'vitest';
import { messyFleet } from '../../data/demo/messy/messy-fleet.ts';
import { unmappedFiles, type UnmappedFile } from '../../lib/records/index.ts';
import { fedTables, neededColumns, type ColumnMap, type ColumnSource } from '../../shared/column-map.ts';
import { source } from '../records/sources.ts';

const { exports } = messyFleet({ units: 120 });

/** A file's name as the reader has it, with its sheet where it has several. */
const confirmed = new Map(
  exports.flatMap(({ lists }) =>
    lists.map(({ file, sheet, map }) => [sheet === '' || lists.length < 2 ? file : `${file}/${sheet}`, map] as const),
  ),
);

const headersOf = ({ from = [], unitFrom }: ColumnSource): string =>
  [...from, ...(unitFrom ? [unitFrom] : [])].map(({ header }) => header).join(' + ');

/** Every one of our columns of a map with the headers it comes from; what is the same in all rows has none. */
const columnsOf = (map: ColumnMap): Map<string, string> =>
  new Map(
    fedTables(map.feeds).flatMap((table) =>
      (map.tables[table] ?? []).map((one) => [`${table} ${one.ours}`, headersOf(one)] as const),
    ),
  );

describe('proposals for the exports of five shops', () => {
  let found: ReadonlyMap<string, UnmappedFile>;
  beforeAll(async () => {
    const { files } = await unmappedFiles(exports.map(({ name, bytes }) => source(name, bytes)));
    found = new Map(files.map((file) => [file.name, file]));
  }, 120_000);

  it('are made for every list, and every list looks like records', () => {
    expect([...found.keys()].toSorted()).toEqual([...confirmed.keys()].toSorted());
    expect([...found.values()].filter(({ likely }) => !likely)).toEqual([]);
  });

  it.each([...confirmed.keys()])('name no wrong column of %s, and every one that a row cannot do without', (name) => {
    const map = confirmed.get(name) as ColumnMap;
    const proposed = found.get(name)?.proposal.map as ColumnMap;
    const [meant, told] = [columnsOf(map), columnsOf(proposed)];
    expect(fedTables(proposed.feeds)).toEqual(fedTables(map.feeds));
    const wrong = [...told].filter(([ours, headers]) => meant.get(ours) !== headers);
    expect(wrong.map(([ours, headers]) => [ours, headers, meant.get(ours)])).toEqual([]);
    const needed = fedTables(map.feeds).flatMap((table) => neededColumns(table).map((ours) => `${table} ${ours}`));
    expect(needed.filter((ours) => !told.has(ours))).toEqual([]);
    expect(told.size).toBeGreaterThan(0.6 * meant.size);
    expect(proposed.numbers).toEqual(map.numbers);
    expect(proposed.dates.order).toBe(map.dates.order);
  });
});
