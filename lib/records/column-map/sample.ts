import type { SourceChoice } from '../../../shared/source-choice.ts';
import type { CutRow } from '../cut-row.ts';
import type { RecordSource } from '../record-source.ts';
import type { RowSink } from '../row-sink.ts';
import { readSource } from '../source-rows.ts';
import { TextRow } from '../text-row.ts';

/** The first rows of a file, its cells as they are shown. */
export interface Sample {
  readonly headers: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** Lines on which they stand. */
  readonly lines: readonly number[];
  /** Rows among them that could not be cut into cells; they will be set aside. */
  readonly broken: number;
  /** Whether these are all rows of the file. */
  readonly whole: boolean;
}

export const sampleRows = 5_000;

/** Thrown to leave a file once enough of it was seen. */
const seenEnough = new Error('enough rows were seen');

class SampleSink implements RowSink {
  readonly width: number;
  readonly rows: string[][] = [];
  readonly lines: number[] = [];
  unread = 0;

  constructor(
    readonly headers: readonly string[],
    private readonly limit: number,
  ) {
    this.width = headers.findLastIndex((header) => header.trim() !== '') + 1;
  }

  row(cut: CutRow, line: number): void {
    if (this.full) return;
    this.rows.push(Array.from({ length: this.width }, (_, cell) => cut.shown(cell)));
    this.lines.push(line);
  }

  broken(): void {
    this.unread++;
  }

  get full(): boolean {
    return this.rows.length >= this.limit;
  }

  send(): Promise<void> {
    return Promise.reject(seenEnough);
  }

  finish(): Promise<void> {
    return Promise.resolve();
  }
}

/** Reads the first rows of a source, or says why it has none. @throws the signal's reason where aborted */
export async function sampleOf(
  source: RecordSource,
  choice: SourceChoice = {},
  limit: number = sampleRows,
  signal?: AbortSignal,
): Promise<Sample | string> {
  const held: { sink?: SampleSink } = {};
  const openRows = (headers: readonly string[]) => Promise.resolve((held.sink = new SampleSink(headers, limit)));
  const wanted = { openRows, choice, say: () => undefined, sinkFailed: () => held.sink?.full === true };
  let whole = true;
  const outcome = await readSource(source, wanted, signal)
    .then(({ outcome }) => outcome)
    .catch((error: unknown) => {
      if (error !== seenEnough) throw error;
      whole = false;
      return null;
    });
  const { sink } = held;
  if (outcome !== null || !sink) return outcome ?? 'has no headers';
  return { headers: sink.headers, rows: sink.rows, lines: sink.lines, broken: sink.unread, whole };
}

/** Rows of a sample, one after the other, as rows of a file. */
export function sampleRow(): TextRow & { at(row: readonly string[]): TextRow } {
  let now: readonly string[] = [];
  const cut = new TextRow(
    () => now.length,
    (index) => now[index] ?? null,
  );
  return Object.assign(cut, {
    at(row: readonly string[]) {
      now = row;
      return cut;
    },
  });
}
