import type { NamedFile } from '../../_state/record-desk.ts';

/** Files of a picker, named by their path in the folder chosen where there was one. */
export const namedFiles = (files: readonly File[]): NamedFile[] =>
  files
    .filter(notHidden)
    .map((file) => ({ name: file.webkitRelativePath === '' ? file.name : file.webkitRelativePath, file }));

/** What systems leave in folders (`.DS_Store`, `Thumbs.db`) is nobody's record. */
const notHidden = ({ name }: File): boolean => !name.startsWith('.') && name !== 'Thumbs.db' && name !== 'desktop.ini';

const fileOf = (entry: FileSystemFileEntry): Promise<File> =>
  new Promise((resolve, reject) => entry.file(resolve, reject));

/** All entries of a folder: a reader gives them in batches and an empty one at the end. */
async function entriesOf(folder: FileSystemDirectoryEntry): Promise<FileSystemEntry[]> {
  const reader = folder.createReader();
  const all: FileSystemEntry[] = [];
  for (;;) {
    const batch = await new Promise<FileSystemEntry[]>((resolve, reject) => reader.readEntries(resolve, reject));
    if (batch.length === 0) return all;
    all.push(...batch);
  }
}

async function filesIn(entry: FileSystemEntry): Promise<NamedFile[]> {
  if (entry.isFile) {
    const file = await fileOf(entry as FileSystemFileEntry);
    return notHidden(file) ? [{ name: entry.fullPath.replace(/^\//, ''), file }] : [];
  }
  const entries = await entriesOf(entry as FileSystemDirectoryEntry);
  return (await Promise.all(entries.map(filesIn))).flat();
}

/** Files and folders let go over the page, folders walked through. */
export async function droppedFiles(transfer: DataTransfer): Promise<NamedFile[]> {
  // The list empties itself once the event is over: entries are taken before anything is awaited.
  const entries = [...transfer.items].map((item) => item.webkitGetAsEntry()).filter((entry) => entry !== null);
  if (entries.length === 0) return namedFiles([...transfer.files]);
  return (await Promise.all(entries.map(filesIn))).flat();
}
