import { chunksOf, type ByteStream, type Chunks, type RecordSource } from './record-source.ts';

/** Beyond this a file that has to be held whole is not held. */
const largestHeld = 2 ** 30;

/** Of a packed file less is held than of one that is not: a few bytes of it may become very many. */
export const mostUnpacked = (packedBytes: number): number => Math.min(largestHeld, Math.max(2 ** 27, packedBytes * 50));

/** Bytes that can be read from any place, as files are that keep their table of contents at their end. */
export interface SourceBytes {
  readonly size: number;
  /** The bytes from `start` up to `end`, fewer only at the end of the file. */
  readonly read: (start: number, end: number) => Promise<Uint8Array<ArrayBuffer>>;
  /** The same, in pieces. */
  readonly part: (start: number, end: number) => ByteStream;
}

/** The bytes of a source that can give parts of itself; `onBytes` hears how many were read. */
export function partedBytes(
  size: number,
  part: NonNullable<RecordSource['part']>,
  onBytes: (count: number) => void = () => undefined,
): SourceBytes {
  async function* watched(start: number, end: number): Chunks {
    for await (const chunk of chunksOf(part(start, Math.min(end, size)))) {
      onBytes(chunk.length);
      yield chunk;
    }
  }
  return {
    size,
    part: watched,
    async read(start, end) {
      const to = Math.min(end, size);
      return start >= to ? new Uint8Array(0) : joined(await pieces(watched(start, to), to - start));
    },
  };
}

/** Bytes that are in memory. */
export function heldBytes(bytes: Uint8Array<ArrayBuffer>): SourceBytes {
  return {
    size: bytes.length,
    read: (start, end) => Promise.resolve(bytes.slice(start, end)),
    async *part(start, end) {
      const step = 2 ** 18;
      for (let at = start; at < end; at += step) {
        yield await Promise.resolve(bytes.subarray(at, Math.min(end, at + step)));
      }
    },
  };
}

/** The whole of a source, wherever it comes from. @throws where it is too large to be held in memory */
export async function bytesOf(source: RecordSource): Promise<SourceBytes> {
  const { size, part } = source;
  if (part) return partedBytes(size, part);
  return heldBytes(joined(await pieces(chunksOf(source.stream()))));
}

/** All that is to come, up to a limit. @throws beyond it */
export async function pieces(chunks: Chunks, limit = largestHeld): Promise<Uint8Array[]> {
  const held: Uint8Array[] = [];
  let length = 0;
  for (;;) {
    const { done, value } = await chunks.next();
    if (done) return held;
    length += value.length;
    if (length > limit) throw new Error(`more than ${limit} bytes, which is more than can be held at once`);
    held.push(value);
  }
}

export function joined(chunks: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(chunks.reduce((length, chunk) => length + chunk.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    bytes.set(chunk, at);
    at += chunk.length;
  }
  return bytes;
}
