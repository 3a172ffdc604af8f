import { sha256 } from 'hash-wasm';
import type { FileAccount, Progress } from '../../shared/record-set.ts';
import type { TableName } from '../../shared/record-tables.ts';
import type { SourceChoice } from '../../shared/source-choice.ts';
import { FileRows } from './file-rows.ts';
import { readHeader } from './header.ts';
import type { IdentityIndex } from './identity-index.ts';
import { baseName, type RecordSource } from './record-source.ts';
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
  readonly choices: Readonly<Record<string, SourceChoice>>;
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

/**
 * Reads one file into the tables in the making. A file that cannot be used as a whole, or breaks
 * off in the middle of what only makes sense whole, leaves nothing behind but the reason.
 * @throws the signal's reason, and what the engine throws
 */
export async function readFile(
  source: RecordSource,
  table: TableName,
  fileId: number,
  job: ReadingJob,
): Promise<FileAccount> {
  const { staging, ids, signal } = job;
  const doing = `Reading ${baseName(source.name)}`;
  const onBytes = (count: number) => {
    job.doneBytes += count;
    // A file may turn out longer than it said.
    job.onProgress({ doing, share: job.totalBytes > 0 ? Math.min(1, job.doneBytes / job.totalBytes) : null });
  };
  const held: { rows?: FileRows } = {};
  const openRows = (headers: readonly string[]) => {
    const header = readHeader(table, headers);
    if (typeof header === 'string') return Promise.resolve(header);
    held.rows = new FileRows(staging, table, fileId, header, ids.get(table) ?? null);
    return held.rows.begin();
  };
  const said: string[] = [];
  const choice = choiceFor(source, job.choices);
  const wanted = {
    openRows,
    choice,
    say: (note: string) => said.push(note),
    sinkFailed: () => held.rows?.engineFailed === true,
  };
  const { outcome, fingerprint } = await readSource(source, wanted, signal, onBytes);
  if (outcome === null && held.rows) {
    job.notes.push(...said.map((note) => `${source.name} ${note}`));
    return accountOf(source.name, table, held.rows, await sheetFingerprint(fingerprint, source.sheet));
  }
  await held.rows?.settled();
  if (held.rows) await staging.forget(table, fileId);
  return refusedFile(source.name, table, outcome ?? 'has no headers', fingerprint);
}

/** What was chosen for a file, by its name with its folder or without. */
function choiceFor({ name, sheet }: RecordSource, choices: ReadingJob['choices']): SourceChoice {
  const chosen = choices[name] ?? choices[baseName(name)] ?? {};
  return sheet === undefined ? chosen : { ...chosen, sheet };
}

/** Sheets of one workbook are sources that have the same bytes, and are not the same. */
const sheetFingerprint = (fingerprint: string, sheet: string | undefined): Promise<string> | string =>
  sheet === undefined ? fingerprint : sha256(`${fingerprint}\n${sheet}`);

const accountOf = (name: string, table: TableName, rows: FileRows, fingerprint: string): FileAccount => ({
  name,
  table,
  read: rows.read,
  kept: rows.read - rows.setAside,
  setAside: rows.setAside,
  unusedColumns: rows.header.unused,
  refused: null,
  fingerprint,
});
