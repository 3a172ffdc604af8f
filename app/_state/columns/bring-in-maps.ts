import { fittingMap } from '../../../lib/records/column-map/fitting-map.ts';
import { columnMapsOf } from '../../../lib/records/column-map/saved-maps.ts';
import type { ColumnMap } from '../../../shared/column-map.ts';
import { columnMaps } from '../keeping/column-map-store.ts';
import { messageOf } from '../record-sets.ts';
import { columnDrafts } from './column-drafts.ts';
import type { Draft } from './draft.ts';

export interface BroughtIn {
  readonly text: string;
  readonly refused: boolean;
}

/** Takes column maps out of a file: for the files that wait where some do, else into this browser's keeping. */
export async function bringInMaps(file: File): Promise<BroughtIn> {
  let maps: ColumnMap[];
  try {
    maps = columnMapsOf(await file.text());
  } catch (error) {
    return { text: `${file.name} was not taken: it ${messageOf(error)}.`, refused: true };
  }
  const names = maps.map(({ source }) => source).join(', ');
  const { drafts } = columnDrafts.now();
  if (drafts.length === 0) {
    await columnMaps.keep(maps);
    return { text: `${names} from ${file.name} will read files with these headers from now on.`, refused: false };
  }
  return takenBy(drafts, maps, file.name);
}

function takenBy(drafts: readonly Draft[], maps: readonly ColumnMap[], fileName: string): BroughtIn {
  const taken: string[] = [];
  const why: string[] = [];
  for (const { source } of drafts) {
    const fitted = fittingMap(maps, source.files[0] ?? '', source.headers);
    if (fitted === null || typeof fitted === 'string') {
      if (fitted !== null) why.push(`${source.files.join(', ')} ${fitted}`);
      continue;
    }
    columnDrafts.take(source.number, fitted.map);
    taken.push(fitted.map.source);
  }
  if (taken.length === 0)
    return {
      text: `${fileName} was not taken: ${why.join('; ') || 'its headers are those of no file that waits'}.`,
      refused: true,
    };
  return { text: `${taken.join(', ')} from ${fileName} is taken: look it over, then confirm.`, refused: false };
}
