/** A file as the reader sees it, wherever it comes from. `stream` may be called more than once. */
export interface RecordSource {
  /** Its name, with the folder it lies in if there is one: `north/services.csv`. */
  readonly name: string;
  /** In bytes. */
  readonly size: number;
  stream(): ByteStream;
  /**
   * The bytes from `start` up to `end`. Kinds of files that are read from their end (workbooks, archives,
   * Parquet) are held in memory where this is missing.
   */
  readonly part?: (start: number, end: number) => ByteStream;
  /** The name of the archive that it was packed in, where that may say what it holds. */
  readonly within?: string;
  /** The one sheet of a workbook that this source stands for. */
  readonly sheet?: string;
}

export type ByteStream = ReadableStream<Uint8Array> | AsyncIterable<Uint8Array>;
export type Chunks = AsyncGenerator<Uint8Array, void, undefined>;

/** The file's name without its folder. */
export const baseName = (name: string): string => name.replace(/^.*[\\/]/, '');

/** The bytes of a stream. Not every browser's streams can be iterated over. */
export async function* chunksOf(stream: ByteStream): Chunks {
  if (!('getReader' in stream)) {
    yield* stream;
    return;
  }
  const reader = stream.getReader();
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return;
      yield value;
    }
  } finally {
    await reader.cancel().catch(() => undefined);
  }
}

/** The whole of a small source as text. */
export const textOf = (source: RecordSource): Promise<string> => textOfChunks(chunksOf(source.stream()));

/** The whole of something small as text. */
export async function textOfChunks(chunks: Chunks): Promise<string> {
  const decoder = new TextDecoder();
  let text = '';
  for await (const chunk of chunks) text += decoder.decode(chunk, { stream: true });
  return text + decoder.decode();
}
