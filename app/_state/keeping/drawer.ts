/** Named blobs that outlive the page. Paths are `folder/name`; a folder comes and goes with its blobs. */
export interface Drawer {
  /** Writes or replaces: afterwards the path holds all of the stream, or what it held before. */
  put(path: string, content: ReadableStream<Uint8Array>): Promise<void>;
  get(path: string): Promise<Blob | null>;
  /** Folders that hold anything. */
  folders(): Promise<string[]>;
  drop(folder: string): Promise<void>;
}

/** The browser's own file system for this origin where it can write there, else its database. */
export async function openDrawer(name: string): Promise<Drawer> {
  const { openFileDrawer } = await import('./file-drawer.ts');
  const files = await openFileDrawer(name);
  if (files !== null) return files;
  const { openDatabaseDrawer } = await import('./database-drawer.ts');
  return openDatabaseDrawer(name);
}

export const partsOf = (path: string): readonly [folder: string, name: string] => {
  const at = path.indexOf('/');
  return [path.slice(0, at), path.slice(at + 1)];
};
