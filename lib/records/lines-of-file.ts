import type { SourceChoice } from '../../shared/source-choice.ts';
import type { CutRow } from './cut-row.ts';
import type { RecordSource } from './record-source.ts';
import type { RowSink } from './row-sink.ts';
import { readSource } from './source-rows.ts';

/** Some rows of a file as they stand in it, below the headers found. */
export interface LinesFound {
  readonly headers: readonly string[];
  /** By line; a line that the file has no row at is missing. */
  readonly found: ReadonlyMap<number, string>;
}

/** Thrown to leave a file once everything wanted of it was seen. */
const seenEnough = new Error('every row wanted was seen');

/** Keeps the rows of some lines, and no others. */
class LineSink implements RowSink, LinesFound {
  readonly found = new Map<number, string>();
  readonly width: number;
  #last = 0;

  constructor(
    readonly headers: readonly string[],
    private readonly lines: ReadonlySet<number>,
    private readonly furthest: number,
  ) {
    this.width = headers.length;
  }

  row(cut: CutRow, line: number): void {
    this.#last = line;
    if (this.lines.has(line)) this.found.set(line, cut.original());
  }

  broken(line: number, _reason: string, _accepted: string, original: string): void {
    this.#last = line;
    if (this.lines.has(line)) this.found.set(line, original);
  }

  get full(): boolean {
    return this.#last >= this.furthest;
  }

  send(): Promise<void> {
    return Promise.reject(seenEnough);
  }

  finish(): Promise<void> {
    return Promise.resolve();
  }
}

/**
 * Reads a file again, as far as the last line wanted.
 * @param refusing why headers are not those of the table meant, or null where they are
 * @returns null where no headers were the ones
 * @throws the signal's reason where aborted
 */
export async function linesOfFile(
  source: RecordSource,
  lines: ReadonlySet<number>,
  choice: SourceChoice,
  refusing: (headers: readonly string[]) => string | null,
  signal?: AbortSignal,
): Promise<LinesFound | null> {
  const held: { sink?: LineSink } = {};
  const openRows = (headers: readonly string[]): Promise<RowSink | string> => {
    const refused = refusing(headers);
    if (refused !== null) return Promise.resolve(refused);
    held.sink = new LineSink(headers, lines, Math.max(...lines));
    return Promise.resolve(held.sink);
  };
  const asked = { openRows, choice, say: () => undefined, sinkFailed: () => held.sink?.full === true };
  await readSource(source, asked, signal).catch((error: unknown) => {
    if (error !== seenEnough) throw error;
  });
  return held.sink ?? null;
}
