import type { ColumnSource } from '../../../../shared/column-map.ts';
import { recordTables, type TableName } from '../../../../shared/record-tables.ts';
import { namedHeaders } from '../fitting-map.ts';
import type { Sample } from '../sample.ts';
import { decimalOf, profileOf } from './column-profile.ts';
import { sourceOf } from './column-sources.ts';

/** How a column of the file would become one of ours, where somebody says that it does. */
export function proposeSource({ headers, rows }: Sample, header: string, table: TableName, ours: string): ColumnSource {
  const column = recordTables[table].find(({ name }) => name === ours);
  const place = namedHeaders(headers).indexOf(header);
  if (!column || place < 0) return { ours, from: [{ header }] };
  const profile = profileOf(header, place, rows, decimalOf(rows) ?? 'point');
  return sourceOf(column, { ours, profile, confidence: 1, why: 'it was said to be' }, table, 0).source;
}
