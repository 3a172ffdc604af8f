/** A file as the reader sees it, wherever it comes from. `stream` may be called more than once. */
export interface RecordSource {
  /** Its name, with the folder it lies in if there is one: `north/services.csv`. */
  readonly name: string;
  /** In bytes. */
  readonly size: number;
  stream(): ReadableStream<Uint8Array> | AsyncIterable<Uint8Array>;
}

/** The file's name without its folder. */
export const baseName = (name: string): string => name.replace(/^.*[\\/]/, '');

/** The bytes of a source. Not every browser's streams can be iterated over. */
export async function* chunksOf(source: RecordSource): AsyncGenerator<Uint8Array, void, undefined> {
  const stream = source.stream();
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
export async function textOf(source: RecordSource): Promise<string> {
  const decoder = new TextDecoder();
  let text = '';
  for await (const chunk of chunksOf(source)) text += decoder.decode(chunk, { stream: true });
  return text + decoder.decode();
}
