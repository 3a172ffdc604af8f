import { fedTables, type ColumnMap } from '../../shared/column-map.ts';
import type { TableName } from '../../shared/record-tables.ts';
import type { SourceChoice } from '../../shared/source-choice.ts';
import { fittingMap } from './column-map/fitting-map.ts';
import { readHeader } from './header.ts';
import { baseName, type RecordSource } from './record-source.ts';
import { noTable, type SortedSources } from './sorted-sources.ts';
import { readSource } from './source-rows.ts';

export type Choices = Readonly<Record<string, SourceChoice>>;

/** A file on its way to its tables: by the canonical headers of one, or by a column map. */
export interface PlannedFile {
  readonly source: RecordSource;
  readonly table: TableName | null;
  readonly map: ColumnMap | null;
  /** The numbers that its rows carry: one for each table it feeds, and one for rows that feed none where a map tells them apart. */
  readonly fileIds: readonly number[];
}

export interface Plan {
  readonly files: readonly PlannedFile[];
  /** Files that cannot be used, with the reason. */
  readonly refused: readonly { readonly name: string; readonly why: string }[];
}

/** Finds what each file is read by. A map that fits goes before the name and the headers of the file. */
export async function plannedFiles(
  { tables, unnamed }: SortedSources,
  maps: readonly ColumnMap[],
  choices: Choices,
  signal: AbortSignal | undefined,
): Promise<Plan> {
  const files: PlannedFile[] = [];
  const refused: { name: string; why: string }[] = [];
  let next = 0;
  const all = [...tables, ...unnamed.map((source) => ({ source, table: null }))];
  all.sort((a, b) => (a.source.name < b.source.name ? -1 : 1));
  for (const { source, table } of all) {
    const found = maps.length === 0 ? null : await mapFor(source, table, maps, choices, signal);
    const map = typeof found === 'string' ? null : found;
    if (map === null && (table === null || typeof found === 'string')) {
      refused.push({ name: source.name, why: typeof found === 'string' ? found : noTable });
      continue;
    }
    const wanted = map === null ? 1 : fedTables(map.feeds).length + ('by' in map.feeds ? 1 : 0);
    files.push({ source, table, map, fileIds: Array.from({ length: wanted }, () => next++) });
  }
  return { files, refused };
}

/** Where in a file its rows stand: as the map says, or as was chosen for a file by its name with its folder or without. */
export function choiceFor({ name, sheet }: RecordSource, choices: Choices, map: ColumnMap | null = null): SourceChoice {
  const chosen = { ...map?.where, ...(choices[name] ?? choices[baseName(name)]) };
  return sheet === undefined ? chosen : { ...chosen, sheet };
}

/** Thrown to leave a file once its headers were seen. */
const seenEnough = new Error('the headers were seen');

/** The map that fits, why a map that comes near does not, or null where the file goes without. */
export async function mapFor(
  source: RecordSource,
  table: TableName | null,
  maps: readonly ColumnMap[],
  choices: Choices,
  signal: AbortSignal | undefined,
): Promise<ColumnMap | string | null> {
  // A map that names a sheet is for that sheet alone, even where another has the same headers.
  const able = maps.filter(
    ({ where }) => source.sheet === undefined || where?.sheet === undefined || where.sheet === source.sheet,
  );
  const seen: { map: ColumnMap | null; why: string | null; done: boolean } = { map: null, why: null, done: false };
  const stop = (): never => {
    seen.done = true;
    throw seenEnough;
  };
  const openRows = async (headers: readonly string[], sparse?: boolean) => {
    const found = fittingMap(able, source.name, headers, sparse);
    if (found !== null && typeof found !== 'string') {
      seen.map = found.map;
      return stop();
    }
    if (table !== null && typeof readHeader(table, headers) !== 'string') return stop();
    seen.why ??= found;
    return 'is looked at only';
  };
  // A sheet or a row of headers that one map names is no other map's business.
  for (const where of placesOf(able)) {
    const choice = { ...where, ...choiceFor(source, choices, null) };
    const wanted = { openRows, choice, say: () => undefined, sinkFailed: () => seen.done };
    await readSource(source, wanted, signal).catch((error: unknown) => {
      if (error !== seenEnough) throw error;
    });
    if (seen.done) return seen.map;
  }
  return seen.why;
}

function placesOf(maps: readonly ColumnMap[]): SourceChoice[] {
  const places = new Map(maps.map(({ where = {} }) => [JSON.stringify(where), where]));
  return [...new Map<string, SourceChoice>([['{}', {}], ...places]).values()];
}
