import type { SourceChoice } from '../../shared/source-choice.ts';
import { readArrowFile, readArrowStream } from './arrow-rows.ts';
import { readCsvRows } from './csv-rows.ts';
import { damageWords } from './damage-words.ts';
import { readJsonLines } from './json-lines.ts';
import { openPackage } from './office-package.ts';
import { readParquetRows } from './parquet-rows.ts';
import { readableFormats } from './readable-formats.ts';
import type { OpenRows, Outcome, Say } from './row-sink.ts';
import type { RecordSource } from './record-source.ts';
import { SourceReading, type OpenedContent } from './source-reading.ts';
import { readWorkbookRows } from './workbook-rows.ts';
import { zipMembers } from './zip-archive.ts';

export interface RowsWanted {
  readonly openRows: OpenRows;
  readonly choice: SourceChoice;
  readonly say: Say;
  /** Whether what takes the rows, rather than the file, is to blame for an error. */
  sinkFailed?(): boolean;
}

/** A file that is refused is read to its end no further than this, in bytes: the reason should not have to wait. */
const worthHashing = 2 ** 26;

export interface SourceRead {
  readonly outcome: Outcome;
  /** SHA-256 of the file's bytes, in hex; blank where it could not be read to its end, or is large and of no use. */
  readonly fingerprint: string;
}

/**
 * Reads a source into the rows that its headers open. What is damaged, cut short or not to be had is
 * an outcome, too: then some rows may have been taken, and are to be forgotten.
 * @param onBytes hears how many of the source's bytes are done
 * @throws the signal's reason, and what the sink throws
 */
export async function readSource(
  source: RecordSource,
  wanted: RowsWanted,
  signal?: AbortSignal,
  onBytes: (count: number) => void = () => undefined,
): Promise<SourceRead> {
  const reading = new SourceReading(source, signal, onBytes);
  try {
    const outcome = await reading
      .open()
      .then((opened) => readContent(opened, wanted))
      .catch((error: unknown) => {
        signal?.throwIfAborted();
        if (wanted.sinkFailed?.()) throw error;
        return damageWords(error);
      });
    const needless = outcome !== null && source.size > worthHashing;
    const fingerprint = needless ? '' : await reading.fingerprint().catch(() => '');
    signal?.throwIfAborted();
    return { outcome, fingerprint };
  } finally {
    await reading.close();
  }
}

/** Reads what a source turns out to hold, or says why it cannot be read. */
async function readContent(opened: OpenedContent, { openRows, choice, say }: RowsWanted): Promise<Outcome> {
  const { content, what, chunks } = opened;
  switch (content) {
    case 'empty':
      return 'is empty';
    case 'gzip':
      return `is packed twice; ${readableFormats}`;
    case 'foreign':
      return `is ${what}; ${readableFormats}`;
    case 'zip': {
      const held = await openPackage(await zipMembers(await opened.bytes()));
      return typeof held === 'string' ? held : readWorkbookRows(held, openRows, choice, say);
    }
    case 'parquet':
      return readParquetRows(await opened.bytes(), openRows, say);
    case 'arrow-file':
      return readArrowFile(await opened.bytes(), openRows, say);
    case 'arrow-stream':
      return readArrowStream(chunks, openRows, say);
    case 'json-lines':
      return readJsonLines(chunks, opened.again, openRows);
    case 'text':
    case 'utf-16le':
    case 'utf-16be':
      return readCsvRows(chunks, openRows, choice, say);
  }
}
