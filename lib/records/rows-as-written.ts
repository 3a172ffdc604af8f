import type { SourceChoice } from '../../shared/source-choice.ts';
import type { TableName } from '../../shared/record-tables.ts';
import type { CutRow } from './cut-row.ts';
import { readHeader } from './header.ts';
import { baseName, type RecordSource } from './record-source.ts';
import type { RowSink } from './row-sink.ts';
import { readSource } from './source-rows.ts';
import { unpackedSources } from './unpacked-sources.ts';

/** A row of the record tables, by where it stands. */
export interface RowWanted {
  readonly file: string;
  readonly table: TableName;
  readonly line: number;
}

/** A row as it stands in its file, with the file's own headers. */
export interface RowWritten extends RowWanted {
  readonly headers: readonly string[];
  /** Null where the file is not to be had any more, or has no such row. */
  readonly written: string | null;
}

/** Thrown to leave a file once everything wanted of it was seen. */
const seenEnough = new Error('every row wanted was seen');

/** Keeps the rows of some lines, and no others. */
class LineSink implements RowSink {
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

/** Reads one file until its last line wanted. @param strict whether only headers of the table itself are taken for headers */
async function linesOf(
  source: RecordSource,
  wanted: readonly RowWanted[],
  choice: SourceChoice,
  strict: boolean,
  signal: AbortSignal | undefined,
): Promise<LineSink | null> {
  const lines = new Set(wanted.map(({ line }) => line));
  const held: { sink?: LineSink } = {};
  const openRows = (headers: readonly string[]): Promise<RowSink | string> => {
    const refused = wanted.map(({ table }) => readHeader(table, headers)).find((header) => typeof header === 'string');
    if (strict && typeof refused === 'string') return Promise.resolve(refused);
    held.sink = new LineSink(headers, lines, Math.max(...lines));
    return Promise.resolve(held.sink);
  };
  const asked = { openRows, choice, say: () => undefined, sinkFailed: () => held.sink?.full === true };
  await readSource(source, asked, signal).catch((error: unknown) => {
    if (error !== seenEnough) throw error;
  });
  return held.sink ?? null;
}

/**
 * Rows as they stand in their files, found by reading those files again as far as needed; where the
 * files themselves are held, nothing has to be kept beside the tables.
 * @param sources the files given to `readRecords`, archives among them
 * @param choices where in a file its rows stand, as given to `readRecords`
 * @throws the signal's reason where aborted
 */
export async function rowsAsWritten(
  sources: readonly RecordSource[],
  wanted: readonly RowWanted[],
  { signal, choices = {} }: { signal?: AbortSignal; choices?: Readonly<Record<string, SourceChoice>> } = {},
): Promise<RowWritten[]> {
  const files = [...new Set(wanted.map(({ file }) => file))];
  const near = sources.filter(({ name }) => files.some((file) => file === name || file.startsWith(`${name}/`)));
  const unpacked = (await unpackedSources(near)).sources;
  const found = new Map<string, LineSink | null>();
  for (const file of files) {
    const source = unpacked.find(({ name }) => name === file);
    if (source === undefined) continue;
    const rows = wanted.filter((row) => row.file === file);
    const chosen = choices[file] ?? choices[baseName(file)] ?? {};
    const choice = source.sheet === undefined ? chosen : { ...chosen, sheet: source.sheet };
    const sink = await linesOf(source, rows, choice, true, signal);
    // Headers that only a column map understands.
    found.set(file, sink ?? (await linesOf(source, rows, choice, false, signal)));
  }
  return wanted.map((row) => {
    const sink = found.get(row.file) ?? null;
    return { ...row, headers: sink?.headers ?? [], written: sink?.found.get(row.line) ?? null };
  });
}
