import type { FileAccount, Progress } from '../../shared/record-set.ts';
import type { TableName } from '../../shared/record-tables.ts';
import { readArrowRows } from './arrow-rows.ts';
import { readCsvRows } from './csv-rows.ts';
import { FileRows } from './file-rows.ts';
import { readHeader } from './header.ts';
import type { IdentityIndex } from './identity-index.ts';
import { baseName, type RecordSource } from './record-source.ts';
import type { OpenRows, Outcome } from './row-sink.ts';
import { SourceReading, type OpenedContent } from './source-reading.ts';
import type { Staging } from './staging.ts';

/** What the reading of all files has in common. */
export interface ReadingJob {
  readonly staging: Staging;
  readonly ids: ReadonlyMap<TableName, IdentityIndex>;
  readonly totalBytes: number;
  readonly signal: AbortSignal | undefined;
  readonly onProgress: (progress: Progress) => void;
  doneBytes: number;
}

const readable = 'what can be read is CSV, TSV and Arrow, gzip around it or not';

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
  const reading = new SourceReading(source, signal, (count) => {
    job.doneBytes += count;
    // A file may turn out longer than it said.
    job.onProgress({ doing, share: job.totalBytes > 0 ? Math.min(1, job.doneBytes / job.totalBytes) : null });
  });
  const held: { rows?: FileRows } = {};
  const openRows = (headers: readonly string[]) => {
    const header = readHeader(table, headers);
    if (typeof header === 'string') return Promise.resolve(header);
    held.rows = new FileRows(staging, table, fileId, header, ids.get(table) ?? null);
    return held.rows.begin();
  };
  try {
    const outcome = await reading
      .open()
      .then((content) => readContent(content, openRows))
      .catch((error: unknown) => {
        signal?.throwIfAborted();
        if (held.rows?.engineFailed) throw error;
        return `is damaged, cut short or not to be had: ${error instanceof Error ? error.message : String(error)}`;
      });
    const fingerprint = await reading.fingerprint().catch(() => '');
    signal?.throwIfAborted();
    if (outcome === null && held.rows) return accountOf(source.name, table, held.rows, fingerprint);
    await held.rows?.settled();
    if (held.rows) await staging.forget(table, fileId);
    return refusedFile(source.name, table, outcome ?? 'has no headers', fingerprint);
  } finally {
    await reading.close();
  }
}

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

/** Reads what the content turns out to be, or says why it cannot be read. */
async function readContent({ content, what, chunks }: OpenedContent, openRows: OpenRows): Promise<Outcome> {
  switch (content) {
    case 'empty':
      return 'is empty';
    case 'gzip':
      return `is packed twice; ${readable}`;
    case 'foreign':
      return `is ${what}; ${readable}`;
    case 'arrow-file':
    case 'arrow-stream':
      return readArrowRows(chunks, openRows);
    case 'text':
    case 'utf-16le':
    case 'utf-16be':
      return readCsvRows(chunks, openRows);
  }
}
