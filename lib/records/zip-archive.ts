import { ZipReader, type FileEntry } from '@zip.js/zip.js/lib/zip-core-reader.js';
import { chunksOf, type Chunks } from './record-source.ts';
import type { SourceBytes } from './source-bytes.ts';

const mostMembers = 10_000;

/** Deflate packs by 1032 at most; tables of text by 5 to 40. Only what is large, too, can do harm. */
const suspiciousRatio = 200;
const harmlessBytes = 2 ** 28;

const stored = 0;
const deflated = 8;

/** A file inside an archive. */
export interface ZipMember {
  readonly name: string;
  /** In bytes, as the archive says it. */
  readonly size: number;
  /** Why it cannot be unpacked, or null. */
  readonly problem: string | null;
  /** What it holds, checked against its sum at the end. @throws where it is damaged or longer than was said */
  stream(): Chunks;
}

/**
 * The files inside a zip archive, folders left out.
 * @throws where the archive's table of contents is missing, damaged or holds too many files
 */
export async function zipMembers(bytes: SourceBytes): Promise<ZipMember[]> {
  // A path that leads out of a folder is only a name here: nothing is written anywhere.
  const filenameValidation = 'tolerant';
  const reader = new ZipReader(zipSource(bytes), { useWebWorkers: false, checkSignature: true, filenameValidation });
  const members: ZipMember[] = [];
  for await (const entry of reader.getEntriesGenerator()) {
    if (entry.directory) continue;
    if (members.length === mostMembers) throw new Error(`it holds more than ${mostMembers} files`);
    members.push({
      name: entry.filename,
      size: entry.uncompressedSize,
      problem: problemOf(entry),
      stream: () => unpacked(entry),
    });
  }
  return members;
}

function problemOf({ encrypted, compressionMethod, compressedSize, uncompressedSize }: FileEntry): string | null {
  if (encrypted) return 'is locked with a password; take the password off';
  if (compressionMethod !== stored && compressionMethod !== deflated)
    return `is packed by method ${compressionMethod}, of which nothing is known here; pack it as an ordinary zip`;
  if (uncompressedSize > harmlessBytes && uncompressedSize > compressedSize * suspiciousRatio) {
    const times = Math.round(uncompressedSize / Math.max(1, compressedSize));
    return `would unpack to ${times} times its size, as no table does; unpack it yourself if you trust it`;
  }
  return null;
}

async function* unpacked(entry: FileEntry): Chunks {
  const { readable, writable } = new TransformStream<Uint8Array, Uint8Array>();
  const packing = entry.getData(writable, {
    useWebWorkers: false,
    checkSignature: true,
    checkOverlappingEntry: true,
  });
  // A wrong sum fails the unpacking, and leaves the stream open for ever.
  const failure = new Promise<never>((_, fail) => void packing.catch(fail));
  const reader = readable.getReader();
  let length = 0;
  try {
    for (;;) {
      const { done, value } = await Promise.race([reader.read(), failure]);
      if (done) break;
      length += value.length;
      if (length > entry.uncompressedSize) throw new Error('it is longer than the archive says');
      yield value;
    }
    await packing;
  } finally {
    await reader.cancel().catch(() => undefined);
  }
}

/** Bytes in the shape that the archive's reader takes. */
const zipSource = ({ size, read, part }: SourceBytes) => ({
  size,
  init: () => Promise.resolve(),
  readUint8Array: (index: number, length: number) => read(index, index + length),
  get readable() {
    return streamOf(chunksOf(part(0, size)));
  },
  createReadable: ({ offset = 0, size: length = size - offset }: { offset?: number; size?: number } = {}) =>
    streamOf(chunksOf(part(offset, offset + length))),
});

function streamOf(chunks: Chunks): ReadableStream<Uint8Array> {
  return new ReadableStream({
    async pull(controller) {
      const { done, value } = await chunks.next();
      if (done) controller.close();
      else controller.enqueue(value);
    },
    async cancel() {
      await chunks.return();
    },
  });
}
