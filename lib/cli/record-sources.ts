import { createReadStream, readdirSync, statSync } from 'node:fs';
import { basename, join, relative } from 'node:path';
import { tableOfFile } from '../../shared/record-tables.ts';
import type { RecordSource } from '../records/index.ts';
import { WrongCall } from './call.ts';

/** Read in larger pieces than is usual: each has its price. */
const pieces = { highWaterMark: 2 ** 20 };

const sourceOf = (path: string, name: string): RecordSource => ({
  name,
  size: statSync(path).size,
  stream: () => createReadStream(path, pieces),
  part: (start, end) => createReadStream(path, { ...pieces, start, end: end - 1 }),
});

const filesBelow = (folder: string): RecordSource[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !entry.name.startsWith('.'))
    .map((entry) => join(entry.parentPath, entry.name))
    .map((path) => sourceOf(path, join(basename(folder), relative(folder, path))));

function kindOf(path: string): 'folder' | 'file' {
  const found = statSync(path, { throwIfNoEntry: false });
  if (!found) throw new WrongCall(`no such file or folder; records are a folder or files; ${path}`);
  return found.isDirectory() ? 'folder' : 'file';
}

/** The files of folders, and files named one by one. */
export function recordSources(paths: readonly string[]): RecordSource[] {
  if (paths.length === 0) throw new WrongCall('no records named; name a folder, or files named after their table');
  return paths.flatMap((path) => (kindOf(path) === 'folder' ? filesBelow(path) : [sourceOf(path, path)]));
}

export const bytesOf = (sources: readonly RecordSource[]): number => sources.reduce((sum, { size }) => sum + size, 0);

/** The one path that is a lives table rather than records: a file that is not named after a record table. */
export function livesFileOf(paths: readonly string[]): string | null {
  const [path, ...more] = paths;
  return path !== undefined && more.length === 0 && kindOf(path) === 'file' && tableOfFile(path) === null ? path : null;
}
