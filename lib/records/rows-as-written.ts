import type { SourceChoice } from '../../shared/source-choice.ts';
import type { TableName } from '../../shared/record-tables.ts';
import { readHeader } from './header.ts';
import { linesOfFile, type LinesFound } from './lines-of-file.ts';
import { baseName, type RecordSource } from './record-source.ts';
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

/** Whether headers are those of every table wanted. */
const refusing =
  (wanted: readonly RowWanted[]) =>
  (headers: readonly string[]): string | null =>
    wanted.map(({ table }) => readHeader(table, headers)).find((header) => typeof header === 'string') ?? null;

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
  const found = new Map<string, LinesFound | null>();
  for (const file of files) {
    const source = unpacked.find(({ name }) => name === file);
    if (source === undefined) continue;
    const rows = wanted.filter((row) => row.file === file);
    const chosen = choices[file] ?? choices[baseName(file)] ?? {};
    const choice = source.sheet === undefined ? chosen : { ...chosen, sheet: source.sheet };
    const lines = new Set(rows.map(({ line }) => line));
    const canonical = await linesOfFile(source, lines, choice, refusing(rows), signal);
    // Headers that only a column map understands.
    found.set(file, canonical ?? (await linesOfFile(source, lines, choice, () => null, signal)));
  }
  return wanted.map((row) => {
    const lines = found.get(row.file) ?? null;
    return { ...row, headers: lines?.headers ?? [], written: lines?.found.get(row.line) ?? null };
  });
}
