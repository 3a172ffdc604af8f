import { sha256 } from 'hash-wasm';
import { fedTables, type ColumnMap } from '../../shared/column-map.ts';
import { readByMap, type FileAccount, type Progress } from '../../shared/record-set.ts';
import type { TableName } from '../../shared/record-tables.ts';
import { fittingMap, type FittedMap } from './column-map/fitting-map.ts';
import { MappedRows } from './column-map/mapped-rows.ts';
import type { UnitRoles } from './column-map/unit-roles.ts';
import { FileRows } from './file-rows.ts';
import { readHeader, type Header } from './header.ts';
import type { IdentityIndex } from './identity-index.ts';
import { shownNames } from './listed.ts';
import { choiceFor, type Choices, type PlannedFile } from './planned-files.ts';
import { baseName } from './record-source.ts';
import type { OpenRows } from './row-sink.ts';
import { readSource } from './source-rows.ts';
import type { Staging } from './staging.ts';

/** What the reading of all files has in common. */
export interface ReadingJob {
  readonly staging: Staging;
  readonly ids: ReadonlyMap<TableName, IdentityIndex>;
  readonly totalBytes: number;
  readonly signal: AbortSignal | undefined;
  readonly onProgress: (progress: Progress) => void;
  /** Where in a file its rows stand, by its name. */
  readonly choices: Choices;
  /** Axles of the units read so far, for the places that column maps read. */
  roles: UnitRoles;
  /** The headers below which a file's rows stand, by the number of the file. */
  readonly headers: Map<number, readonly string[]>;
  /** What should be known of files that were read. */
  readonly notes: string[];
  doneBytes: number;
}

/** A file that no table goes by, or that could not be used: nothing of it is read. */
export const refusedFile = (name: string, table: TableName | null, refused: string, fingerprint = ''): FileAccount => ({
  name,
  table,
  read: 0,
  kept: 0,
  setAside: 0,
  unusedColumns: [],
  refused,
  fingerprint,
});

/** The rows of a file being read, by table, and the map behind them. */
interface OpenedRows {
  readonly rows: { readonly table: TableName | null; readonly rows: FileRows; readonly fileId: number }[];
  mapped: { readonly fitted: FittedMap; readonly sink: MappedRows } | null;
}

/**
 * Reads one file into the tables in the making. A file that cannot be used as a whole, or breaks
 * off in the middle of what only makes sense whole, leaves nothing behind but the reason.
 * @returns an account for each of the file's numbers, in their order
 * @throws the signal's reason, and what the engine throws
 */
export async function readFile(file: PlannedFile, job: ReadingJob): Promise<FileAccount[]> {
  const { source, table, map } = file;
  const doing = `Reading ${baseName(source.name)}`;
  const onBytes = (count: number) => {
    job.doneBytes += count;
    // A file may turn out longer than it said.
    job.onProgress({ doing, share: job.totalBytes > 0 ? Math.min(1, job.doneBytes / job.totalBytes) : null });
  };
  const opened: OpenedRows = { rows: [], mapped: null };
  const said: string[] = [];
  const wanted = {
    openRows: opener(file, job, opened),
    choice: choiceFor(source, job.choices, map),
    say: (note: string) => said.push(note),
    sinkFailed: () => opened.rows.some(({ rows }) => rows.engineFailed),
  };
  const { outcome, fingerprint } = await readSource(source, wanted, job.signal, onBytes);
  if (outcome === null && opened.rows.length > 0) {
    job.notes.push(...[...said, ...mapNotes(opened)].map((note) => `${source.name} ${note}`));
    const own = await sheetFingerprint(fingerprint, source.sheet);
    const settled = map === null ? own : await sha256(`${own}\n${JSON.stringify(map)}`);
    const by = map === null ? {} : { columnMap: map.source };
    return opened.rows.map(({ table, rows }) => ({ ...accountOf(source.name, table, rows, settled), ...by }));
  }
  for (const { table, rows, fileId } of opened.rows) {
    await rows.settled();
    await job.staging.forget(table ?? 'services', fileId);
  }
  const refused = refusedFile(source.name, table, outcome ?? 'has no headers', fingerprint);
  return file.fileIds.map((_, index) => (index === 0 ? refused : nothingOf(source.name)));
}

function opener({ source, table, map, fileIds }: PlannedFile, job: ReadingJob, opened: OpenedRows): OpenRows {
  const { staging, ids } = job;
  const open = (table: TableName | null, header: Header): FileRows => {
    const fileId = fileIds[opened.rows.length]!;
    const rows = new FileRows(
      staging,
      table ?? 'services',
      fileId,
      header,
      table === null ? null : (ids.get(table) ?? null),
    );
    opened.rows.push({ table, rows, fileId });
    return rows;
  };
  return async (headers, sparse) => {
    for (const fileId of fileIds) job.headers.set(fileId, headers);
    if (map !== null) {
      const fitted = fittingMap([map], source.name, headers, sparse);
      if (fitted === null || typeof fitted === 'string') return fitted ?? `has not the headers of ${map.source}`;
      const sink = new MappedRows(headers, fitted, job.roles, open);
      opened.mapped = { fitted, sink };
      return sink.begin();
    }
    const header = table === null ? 'feeds no table' : readHeader(table, headers);
    return typeof header === 'string' ? header : open(table, header).begin();
  };
}

/** What should be known of a file that a map was applied to. */
function mapNotes({ mapped }: OpenedRows): string[] {
  if (mapped === null) return [];
  const { map, added, gone, blank } = mapped.fitted;
  const unread = mapped.sink.leftBlank().map(({ table, column, cells }) => `${cells} of ${table} ${column}`);
  return [
    readByMap(map.source),
    ...(added.length > 0
      ? [`has columns that its map does not know, and that are not used: ${shownNames(added)}`]
      : []),
    ...(gone.length > 0 ? [`has no more the columns ${shownNames(gone)}, which its map knows and does not read`] : []),
    ...(blank.length > 0 ? [`has no row that fills the columns ${shownNames(blank)}`] : []),
    ...(unread.length > 0 ? [`has cells that cannot be read and count as not known: ${unread.join(', ')}`] : []),
  ];
}

/** Whether a file feeds the table. */
export const feeds = (
  { table, map }: { table: TableName | null; map: ColumnMap | null },
  wanted: TableName,
): boolean => (map === null ? table === wanted : fedTables(map.feeds).includes(wanted));

/** The account of rows that there were none of. */
export const nothingOf = (name: string): FileAccount => ({
  name,
  table: null,
  read: 0,
  kept: 0,
  setAside: 0,
  unusedColumns: [],
  refused: null,
  fingerprint: '',
});

/** Sheets of one workbook are sources that have the same bytes, and are not the same. */
const sheetFingerprint = (fingerprint: string, sheet: string | undefined): Promise<string> | string =>
  sheet === undefined ? fingerprint : sha256(`${fingerprint}\n${sheet}`);

const accountOf = (name: string, table: TableName | null, rows: FileRows, fingerprint: string): FileAccount => ({
  name,
  table,
  read: rows.read,
  kept: rows.read - rows.setAside,
  setAside: rows.setAside,
  unusedColumns: rows.header.unused,
  refused: null,
  fingerprint,
});
