import type { SourceChoice } from '../../shared/source-choice.ts';
import type { CutRow } from './cut-row.ts';
import type { RecordSource } from './record-source.ts';
import type { RowSink } from './row-sink.ts';
import { choiceFor, type PlannedFile } from './planned-files.ts';
import type { ReadingJob } from './read-file.ts';
import { readSource } from './source-rows.ts';

/** Keeps some rows as they stand in their file, and nothing else. */
class Originals implements RowSink {
  readonly full = false;
  readonly found = new Map<number, string>();

  constructor(
    readonly width: number,
    private readonly wanted: ReadonlySet<number>,
  ) {}

  row(cut: CutRow, line: number): void {
    if (this.wanted.has(line)) this.found.set(line, cut.original());
  }

  broken(): void {
    // Set aside when it was first read.
  }

  send(): Promise<void> {
    return Promise.resolve();
  }

  finish(): Promise<void> {
    return Promise.resolve();
  }
}

/** Some rows of a file as they stand in it, by their lines, below the headers named. */
async function originalsOf(
  source: RecordSource,
  headers: readonly string[],
  choice: SourceChoice,
  lines: ReadonlySet<number>,
  signal?: AbortSignal,
): Promise<ReadonlyMap<number, string>> {
  const sink = new Originals(headers.length, lines);
  const same = (others: readonly string[]) =>
    others.length === headers.length && others.every((one, at) => one === headers[at]);
  const openRows = (others: readonly string[]) => Promise.resolve(same(others) ? sink : 'has other headers');
  await readSource(source, { openRows, choice, say: () => undefined }, signal);
  return sink.found;
}

export interface Place {
  readonly fileId: number;
  readonly line: number;
}

/**
 * Some rows as they stand in their files. A row that turns out to say nothing new only once all files
 * were read is not held until then: its file is read again.
 */
export async function originalRows(
  places: readonly Place[],
  files: readonly PlannedFile[],
  { headers, choices, signal }: ReadingJob,
): Promise<(place: Place) => string> {
  const lines = new Map<number, Set<number>>();
  for (const { fileId, line } of places) lines.set(fileId, (lines.get(fileId) ?? new Set()).add(line));
  const texts = new Map<number, ReadonlyMap<number, string>>();
  for (const [fileId, wanted] of lines) {
    const [file, below] = [files.find(({ fileIds }) => fileIds.includes(fileId)), headers.get(fileId)];
    if (!file || !below) continue;
    const choice = choiceFor(file.source, choices, file.map);
    texts.set(fileId, await originalsOf(file.source, below, choice, wanted, signal));
  }
  return ({ fileId, line }) => texts.get(fileId)?.get(line) ?? '';
}
