import { fileContent, sniffedBytes, type ToldContent } from './file-content.ts';
import { chunksOf, type Chunks, type RecordSource } from './record-source.ts';
import { startSha256 } from './sha256.ts';
import { heldBytes, joined, mostUnpacked, partedBytes, pieces, type SourceBytes } from './source-bytes.ts';
import { gunzipped, utf8Of } from './transcoding.ts';

/** What a source holds, unpacked where it is a gzip. */
export interface OpenedContent extends ToldContent {
  /** The content from its start; text as UTF-8 wherever the first bytes tell its encoding. */
  readonly chunks: Chunks;
  /** The content from its start once more, whatever has been read of it. */
  readonly again: () => Chunks;
  /** The content to be read from any place, in the place of `chunks`. */
  bytes(): Promise<SourceBytes>;
}

/** One pass over a source: its content unpacked, and the fingerprint of its own bytes. */
export class SourceReading {
  readonly #raw: Chunks;
  #unpacked: Chunks | null = null;
  #digest = '';
  /** What a byte counts for: half where it is read once for its content and once for the fingerprint. */
  #weight = 1;

  constructor(
    private readonly source: RecordSource,
    private readonly signal: AbortSignal | undefined,
    private readonly onBytes: (count: number) => void,
  ) {
    this.#raw = this.#watched(chunksOf(source.stream()));
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
    const wide = told.content === 'utf-16le' || told.content === 'utf-16be' ? told.content : null;
    if (wide !== null) {
      ({ head, chunks } = await peeked(utf8Of(chunks, wide)));
      const inside = fileContent(head);
      if (inside.content === 'json-lines' || inside.content === 'foreign') told = inside;
    }
    return { ...told, chunks, again: () => this.#again(wide), bytes: () => this.#bytes(chunks) };
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

  #again(encoding: 'utf-16le' | 'utf-16be' | null): Chunks {
    const raw = chunksOf(this.source.stream());
    const unpacked = this.#unpacked ? gunzipped(raw) : raw;
    return encoding === null ? unpacked : utf8Of(unpacked, encoding);
  }

  async #bytes(chunks: Chunks): Promise<SourceBytes> {
    const { size, part } = this.source;
    if (this.#unpacked || !part) return heldBytes(joined(await pieces(chunks, mostUnpacked(size))));
    this.#weight = 0.5;
    return partedBytes(size, part, (count) => {
      this.signal?.throwIfAborted();
      this.onBytes(count * this.#weight);
    });
  }

  async *#watched(chunks: Chunks): Chunks {
    const hash = await startSha256();
    for await (const chunk of chunks) {
      this.signal?.throwIfAborted();
      hash.update(chunk);
      this.onBytes(chunk.length * this.#weight);
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
  const head = joined(held);
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
