import { columnMapVersion, mappableColumns, positionColumn, type ColumnMap } from '../../../shared/column-map.ts';
import type { TableName } from '../../../shared/record-tables.ts';
import { wordOf } from './cell-words.ts';
import { namedHeaders } from './fitting-map.ts';

/** Headers of our own as a map says them, to try a file that has them by the same means as any other. */
export function canonicalMap(table: TableName, headers: readonly string[]): ColumnMap {
  const names = namedHeaders(headers);
  const headerOf = (ours: string) => names.find((name) => wordOf(name) === ours);
  const places = ['axle', 'side'].flatMap((ours) => headerOf(ours) ?? []);
  const columns = mappableColumns(table).flatMap((ours) => {
    if (ours === positionColumn)
      return [{ ours, from: places.map((header) => ({ header })), joined: 'space' as const }];
    const header = headerOf(ours);
    return header === undefined ? [] : [{ ours, from: [{ header }] }];
  });
  return {
    version: columnMapVersion,
    source: table,
    recognised: { headers: names },
    feeds: { table },
    tables: { [table]: columns },
    dates: {},
    numbers: { decimal: 'point' },
  };
}
