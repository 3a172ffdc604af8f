import { linesOfFile } from './lines-of-file.ts';
import { choiceFor, type PlannedFile } from './planned-files.ts';
import type { ReadingJob } from './read-file.ts';

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
    const refusing = (others: readonly string[]) =>
      others.length === below.length && others.every((one, at) => one === below[at]) ? null : 'has other headers';
    texts.set(fileId, (await linesOfFile(file.source, wanted, choice, refusing, signal))?.found ?? new Map());
  }
  return ({ fileId, line }) => texts.get(fileId)?.get(line) ?? '';
}
