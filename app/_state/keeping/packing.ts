/** Files that are compressed already by what they are. */
const dense = /\.(gz|zip|xlsx|parquet|feather)$/i;

export const worthPacking = (name: string): boolean => !dense.test(name) && 'CompressionStream' in globalThis;

type Bytes = ReadableStream<Uint8Array<ArrayBuffer>>;

export const packedStream = (file: Blob): ReadableStream<Uint8Array> =>
  file.stream().pipeThrough(new CompressionStream('gzip'));

/** The blob as it was given, in this page's own hands: whoever drops it from the drawer takes nothing away. */
export async function unpacked(blob: Blob, packed: boolean): Promise<Blob> {
  const stream: Bytes = packed ? blob.stream().pipeThrough(new DecompressionStream('gzip')) : blob.stream();
  return new Response(stream).blob();
}
