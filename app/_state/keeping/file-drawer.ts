import { partsOf, type Drawer } from './drawer.ts';

const missing = (error: unknown): boolean => error instanceof DOMException && error.name === 'NotFoundError';

/** Null where the browser has no such file system, or none that can be written to from here. */
export async function openFileDrawer(name: string): Promise<Drawer | null> {
  if (!('storage' in navigator) || !('getDirectory' in navigator.storage)) return null;
  if (!('createWritable' in FileSystemFileHandle.prototype)) return null;
  try {
    const root = await navigator.storage.getDirectory();
    return new FileDrawer(await root.getDirectoryHandle(name, { create: true }));
  } catch {
    // Some browsers have the file system and forbid it, as in private windows.
    return null;
  }
}

class FileDrawer implements Drawer {
  constructor(private readonly root: FileSystemDirectoryHandle) {}

  async put(path: string, content: ReadableStream<Uint8Array>): Promise<void> {
    const [folder, name] = partsOf(path);
    const directory = await this.root.getDirectoryHandle(folder, { create: true });
    const file = await directory.getFileHandle(name, { create: true });
    // What is written takes the file's place when the stream closes, and not before.
    await (content as ReadableStream<BufferSource>).pipeTo(await file.createWritable());
  }

  async get(path: string): Promise<Blob | null> {
    const [folder, name] = partsOf(path);
    try {
      const directory = await this.root.getDirectoryHandle(folder);
      return await (await directory.getFileHandle(name)).getFile();
    } catch (error) {
      if (missing(error)) return null;
      throw error;
    }
  }

  async folders(): Promise<string[]> {
    const names: string[] = [];
    for await (const name of this.root.keys()) names.push(name);
    return names;
  }

  async drop(folder: string): Promise<void> {
    await this.root.removeEntry(folder, { recursive: true }).catch((error: unknown) => {
      if (!missing(error)) throw error;
    });
  }
}
