import type { Chunks } from './record-source.ts';

/** What a gzip holds. Throws at the end of one that was cut short. */
export async function* gunzipped(chunks: Chunks): Chunks {
  const inflate = new DecompressionStream('gzip');
  const reader = inflate.readable.getReader();
  const feeding = feed(chunks, inflate.writable.getWriter());
  // It fails together with the reader, whose error is the one that is told.
  feeding.catch(() => undefined);
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) break;
      yield value;
    }
    await feeding;
  } finally {
    await reader.cancel().catch(() => undefined);
  }
}

async function feed(chunks: Chunks, writer: WritableStreamDefaultWriter<BufferSource>): Promise<void> {
  try {
    for (;;) {
      const { done, value } = await chunks.next();
      if (done) break;
      await writer.write(value as Uint8Array<ArrayBuffer>);
    }
    await writer.close();
  } catch (error) {
    await writer.abort(error).catch(() => undefined);
    throw error;
  }
}

/** UTF-16 text as UTF-8, without its byte order mark. */
export async function* utf8Of(chunks: Chunks, encoding: 'utf-16le' | 'utf-16be'): Chunks {
  const decoder = new TextDecoder(encoding);
  const encoder = new TextEncoder();
  for (;;) {
    const { done, value } = await chunks.next();
    yield encoder.encode(done ? decoder.decode() : decoder.decode(value, { stream: true }));
    if (done) return;
  }
}
