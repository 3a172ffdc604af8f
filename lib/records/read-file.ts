import type { FileAccount, Progress } from '../../shared/record-set.ts';
import type { TableName } from '../../shared/record-tables.ts';
import { readArrowTable } from './arrow-table.ts';
import type { FileContent } from './file-content.ts';
import { FileRows } from './file-rows.ts';
import type { Header } from './header.ts';
import type { IdentityIndex } from './identity-index.ts';
import { baseName, type RecordSource } from './record-source.ts';
import { SourceReading } from './source-reading.ts';
import type { Staging } from './staging.ts';
import { readTextTable } from './text-table.ts';

/** What reading all files shares. */
export interface ReadingJob {
  readonly staging: Staging;
  readonly ids: ReadonlyMap<TableName, IdentityIndex>;
  readonly totalBytes: number;
  readonly signal: AbortSignal | undefined;
  readonly onProgress: (progress: Progress) => void;
  doneBytes: number;
}

const readable = 'files are CSV, TSV or Arrow';

/** Reads what the content turns out to be, or says why it cannot be read. */
async function readContent(
  table: TableName,
  told: {
    readonly content: FileContent;
    readonly what: string;
    readonly chunks: AsyncGenerator<Uint8Array, void, undefined>;
  },
  begin: (header: Header) => FileRows,
): Promise<FileRows | string> {
  switch (told.content) {
    case 'empty':
      return 'is empty';
    case 'gzip':
      return `is packed twice; ${readable}, packed at most once`;
    case 'foreign':
      return `is ${told.what}; ${readable}`;
    case 'arrow-file':
    case 'arrow-stream':
      return readArrowTable(table, told.chunks, begin);
    case 'text':
    case 'utf-16le':
    case 'utf-16be':
      return readTextTable(table, told.chunks, begin);
  }
}

/**
 * Reads one file into the tables in the making. A file that cannot be used as a whole, or breaks
 * off in the middle of what only makes sense whole, leaves nothing behind but the reason.
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
    job.onProgress({ doing, share: job.totalBytes > 0 ? Math.min(job.doneBytes / job.totalBytes, 1) : null });
  });
  let unused: readonly string[] = [];
  const begin = (header: Header) => {
    unused = header.unused;
    return new FileRows(staging, table, fileId, header, ids.get(table)!);
  };
  try {
    const outcome = await reading
      .open()
      .then((told) => readContent(table, told, begin))
      .catch((error: unknown) => {
        signal?.throwIfAborted();
        return `is damaged or cut short: ${error instanceof Error ? error.message : String(error)}`;
      });
    const fingerprint = await reading.fingerprint().catch(() => '');
    signal?.throwIfAborted();
    const account = { name: source.name, table, unusedColumns: unused, fingerprint };
    if (typeof outcome === 'string') {
      await staging.forget(table, fileId);
      return { ...account, read: 0, kept: 0, setAside: 0, refused: outcome };
    }
    const { read, setAside } = outcome;
    return {
      ...account,
      read,
      kept: read - setAside,
      setAside,
      refused: read === 0 ? 'has headers and no rows' : null,
    };
  } finally {
    await reading.close();
  }
}
