import { partsOf, type Drawer } from './drawer.ts';

const store = 'blobs';

const settled = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error('the browser’s database gave no reason'));
  });

/** The browser's database as a drawer. */
export async function openDatabaseDrawer(name: string): Promise<Drawer> {
  const opening = indexedDB.open(name, 1);
  opening.onupgradeneeded = () => opening.result.createObjectStore(store);
  return new DatabaseDrawer(await settled(opening));
}

class DatabaseDrawer implements Drawer {
  constructor(private readonly database: IDBDatabase) {}

  async put(path: string, content: ReadableStream<Uint8Array>): Promise<void> {
    const blob = await new Response(
      content as ReadableStream<BufferSource> as ReadableStream<Uint8Array<ArrayBuffer>>,
    ).blob();
    const change = this.database.transaction(store, 'readwrite');
    const done = new Promise<void>((resolve, reject) => {
      change.oncomplete = () => resolve();
      change.onabort = () => reject(change.error ?? new Error('the browser’s database gave no reason'));
    });
    change.objectStore(store).put(blob, path);
    await done;
  }

  async get(path: string): Promise<Blob | null> {
    const found: unknown = await settled(this.blobs('readonly').get(path));
    return found instanceof Blob ? found : null;
  }

  async folders(): Promise<string[]> {
    const keys = await settled(this.blobs('readonly').getAllKeys());
    return [...new Set(keys.map((key) => partsOf(key as string)[0]))];
  }

  async drop(folder: string): Promise<void> {
    await settled(this.blobs('readwrite').delete(IDBKeyRange.bound(`${folder}/`, `${folder}0`, false, true)));
  }

  private blobs(mode: IDBTransactionMode): IDBObjectStore {
    return this.database.transaction(store, mode).objectStore(store);
  }
}
