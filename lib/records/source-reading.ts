import { createSHA256 } from 'hash-wasm';
import { fileContent, sniffedBytes, type FileContent } from './file-content.ts';
import { chunksOf, type RecordSource } from './record-source.ts';
import { gunzipped, utf8Of } from './transcoding.ts';

type Chunks = AsyncGenerator<Uint8Array, void, undefined>;

/** What a source holds; `what` names its kind in words. */
export interface OpenedContent {
  readonly content: FileContent;
  readonly what: string;
  readonly chunks: Chunks;
}

/** One pass over a source: its content unpacked to UTF-8 or Arrow, and the fingerprint of its own bytes. */
export class SourceReading {
  readonly #raw: Chunks;
  #unpacked: Chunks | null = null;
  #digest = '';

  constructor(
    source: RecordSource,
    private readonly signal: AbortSignal | undefined,
    private readonly onBytes: (count: number) => void,
  ) {
    this.#raw = this.#watched(chunksOf(source));
  }

  /** Says what the content is and gives it; a gzip's content is what it holds. */
  async open(): Promise<OpenedContent> {
    let { head, chunks } = await peeked(this.#raw);
    let told = fileContent(head);
    if (told.content === 'gzip') {
      this.#unpacked = gunzipped(chunks);
      ({ head, chunks } = await peeked(this.#unpacked));
      told = fileContent(head);
    }
    if (told.content === 'utf-16le' || told.content === 'utf-16be') chunks = utf8Of(chunks, told.content);
    return { ...told, chunks };
  }

  /** SHA-256 of the bytes as they are stored, in hex; reads whatever has not been read yet. */
  async fingerprint(): Promise<string> {
    // By hand, since leaving a `for await` would have closed the source before its end.
    while (!(await this.#raw.next()).done);
    return this.#digest;
  }

  /** To be called in any case, so that no file stays open. */
  async close(): Promise<void> {
    await this.#unpacked?.return();
    await this.#raw.return();
  }

  async *#watched(chunks: Chunks): Chunks {
    const hash = await createSHA256();
    hash.init();
    for await (const chunk of chunks) {
      this.signal?.throwIfAborted();
      hash.update(chunk);
      this.onBytes(chunk.length);
      yield chunk;
    }
    this.#digest = hash.digest('hex');
  }
}

/** The first bytes, and the same chunks again from the start. Never closes what it reads from. */
async function peeked(chunks: Chunks): Promise<{ head: Uint8Array; chunks: Chunks }> {
  const held: Uint8Array[] = [];
  let length = 0;
  while (length < sniffedBytes) {
    const { done, value } = await chunks.next();
    if (done) break;
    held.push(value);
    length += value.length;
  }
  const head = new Uint8Array(length);
  held.reduce((at, chunk) => {
    head.set(chunk, at);
    return at + chunk.length;
  }, 0);
  return { head, chunks: resumed(head, chunks) };
}

async function* resumed(head: Uint8Array, rest: Chunks): Chunks {
  if (head.length > 0) yield head;
  for (;;) {
    const { done, value } = await rest.next();
    if (done) return;
    yield value;
  }
}
