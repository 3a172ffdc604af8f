/** Named blobs that outlive the page. Paths are `folder/name`; a folder comes and goes with its blobs. */
export interface Drawer {
  /** Writes or replaces: afterwards the path holds all of the stream, or what it held before. */
  put(path: string, content: ReadableStream<Uint8Array>): Promise<void>;
  get(path: string): Promise<Blob | null>;
  /** Folders that hold anything. */
  folders(): Promise<string[]>;
  drop(folder: string): Promise<void>;
}

export const partsOf = (path: string): readonly [folder: string, name: string] => {
  const at = path.indexOf('/');
  return [path.slice(0, at), path.slice(at + 1)];
};
