import type { ColumnMap } from '../../../shared/column-map.ts';
import { readRecordSetFile } from '../record-set-file.ts';
import type { RecordSource } from '../record-source.ts';
import { sortedSources } from '../sorted-sources.ts';
import { unpackedSources } from '../unpacked-sources.ts';
import { wordOf } from './cell-words.ts';
import { mapsAmong } from './saved-maps.ts';

/** The column maps that come along with files: saved among them, or in their `record-set.json`. */
export async function mapsBeside(sources: readonly RecordSource[]): Promise<ColumnMap[]> {
  const saved = await mapsAmong((await unpackedSources(sources)).sources);
  const { said } = await readRecordSetFile(sortedSources(saved.sources).recordSets);
  return [...saved.maps, ...Object.values(said.columnMaps ?? {})];
}

/** Maps to read by: those given go before others that are for the same files. */
export function knownMaps(given: readonly ColumnMap[], others: readonly ColumnMap[]): ColumnMap[] {
  const taken = new Set(given.map(sameFiles));
  return [...given, ...others.filter((map) => !taken.has(sameFiles(map)))];
}

/** One text for all maps that fit the same files. */
const sameFiles = ({ recognised: { headers, fileName = '' } }: ColumnMap): string =>
  JSON.stringify([...headers.map(wordOf).sort(), wordOf(fileName)]);
