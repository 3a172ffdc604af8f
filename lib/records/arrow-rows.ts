import { AsyncRecordBatchFileReader, DataType, RecordBatchReader, Table, Type } from 'apache-arrow';
import type { Field, RecordBatch, Schema, Vector } from 'apache-arrow';
import { decodeArrow } from '../engine/arrow-decode.ts';
import { boundArrowMetadata } from './arrow-bounds.ts';
import { listed } from './listed.ts';
import type { Chunks } from './record-source.ts';
import type { OpenRows, Outcome, Say } from './row-sink.ts';
import type { SourceBytes } from './source-bytes.ts';
import { TextRow } from './text-row.ts';

/**
 * Reads an Arrow IPC file into rows, one batch at a time from wherever the file says it stands; the
 * first row is row 1. A cell becomes the text that a CSV of the same table would hold: dates and times
 * as ISO days, booleans as yes and no, lists as `a;b`.
 * @param openRows is given the headers as soon as they are known
 * @throws what Arrow says where the file is damaged or of a type it does not know
 */
export const readArrowFile = (bytes: SourceBytes, openRows: OpenRows, say: Say): Promise<Outcome> =>
  told(() => readFile(bytes, openRows, say));

async function readFile(bytes: SourceBytes, openRows: OpenRows, say: Say): Promise<Outcome> {
  const end = await bytes.read(Math.max(0, bytes.size - fileMark.length), bytes.size);
  if (bytes.size < 2 * fileMark.length || new TextDecoder().decode(end) !== fileMark) return cutShort;
  const reader = await RecordBatchReader.from(fileHandle(bytes));
  if (!(reader instanceof AsyncRecordBatchFileReader)) return cutShort;
  await reader.open();
  return readBatches({ schema: reader.schema, batches: fileBatches(reader), held: () => bytes.size }, openRows, say);
}

/** Reads an Arrow IPC stream into rows, by the rules of a file. */
export const readArrowStream = (chunks: Chunks, openRows: OpenRows, say: Say): Promise<Outcome> =>
  told(() => readStream(chunks, openRows, say));

async function readStream(chunks: Chunks, openRows: OpenRows, say: Say): Promise<Outcome> {
  const tail = new Tail();
  const reader = await RecordBatchReader.from(tail.watch(chunks));
  await reader.open();
  const outcome = await readBatches({ schema: reader.schema, batches: reader, held: () => tail.size }, openRows, say);
  return outcome ?? (tail.isWhole() ? null : cutShort);
}

boundArrowMetadata();

const fileMark = 'ARROW1';
const cutShort = 'is cut short: the mark that ends Arrow data is missing';

/** Bytes in the shape of a file that Arrow reads from any place; otherwise it holds all of a file in memory. */
function fileHandle({ size, read }: SourceBytes): AsyncIterable<Uint8Array> {
  return {
    fd: 0,
    stat: () => Promise.resolve({ size }),
    async read(buffer: Uint8Array, offset: number, length: number, position: number) {
      const bytes = await read(position, position + length);
      if (bytes.length === 0) throw new Error('it points to places beyond its end');
      buffer.set(bytes, offset);
      return { bytesRead: bytes.length, buffer };
    },
    close: () => Promise.resolve(),
    // Its own type is Node's, which a browser does not have.
  } as unknown as AsyncIterable<Uint8Array>;
}

/** One batch after the other by its place: going on to the next, Arrow never ends where a place is wrong. */
async function* fileBatches(reader: AsyncRecordBatchFileReader): AsyncGenerator<RecordBatch, void, undefined> {
  for (let index = 0; index < reader.numRecordBatches; index++) {
    const batch = await reader.readRecordBatch(index);
    if (!batch) throw new Error(`its batch ${index + 1} is not where it says`);
    yield batch;
  }
}

interface Batches {
  readonly schema: Schema;
  readonly batches: AsyncIterable<RecordBatch>;
  /** Bytes that the batches given so far were read from. */
  readonly held: () => number;
}

/** Arrow says no more of a kind that it does not read than that it is one. */
const notRead: readonly (readonly [said: RegExp, outcome: string])[] = [
  [/compression/i, 'is compressed inside; write it without compression, or as Parquet, or pack it by gzip'],
  [/Unrecognized type/, 'has a column of a newer kind of Arrow than is read here; write it as Parquet, or as CSV'],
];

/** What a reading comes to, kinds that are not read being an outcome, too. */
async function told(reading: () => Promise<Outcome>): Promise<Outcome> {
  try {
    return await reading();
  } catch (error) {
    const known = notRead.find(([said]) => error instanceof Error && said.test(error.message));
    if (known) return known[1];
    throw error;
  }
}

async function readBatches({ schema, batches, held }: Batches, openRows: OpenRows, say: Say): Promise<Outcome> {
  const { fields } = schema;
  // A damaged file may leave a name out, whatever the type says.
  const rows = await openRows(fields.map(({ name }) => (name as string | null) ?? ''));
  if (typeof rows === 'string') return rows;
  const faults = fields.map(({ type }) => (isUnread(type) ? `a value of the kind ${type}, which is not read` : null));
  const unread = fields.filter((_, at) => faults[at] !== null).map(({ name }) => name);
  if (unread.length > 0) say(`has columns of a kind that is not read: ${listed(unread)}`);
  let line = 1;
  for await (const batch of batches) {
    // A row takes a bit at the least.
    const most = held() * 8;
    if (batch.numRows > most) throw new Error('it says that it has more rows than it can hold');
    const columns = fields.map((field, index) => (faults[index] === null ? textsOf(batch, field, index, most) : []));
    let index = 0;
    const row = new TextRow(
      () => columns.length,
      (column) => columns[column]?.[index] ?? null,
      (column) => faults[column] ?? null,
    );
    for (; index < batch.numRows; index++) {
      rows.row(row, line++);
      if (rows.full) await rows.send();
    }
  }
  await rows.finish();
  return null;
}

/**
 * The last bytes of a stream. Arrow takes one that ends between two batches for a whole one;
 * what writes files puts a mark at their end, and without it rows may be missing.
 */
class Tail {
  size = 0;
  #bytes: number[] = [];

  async *watch(chunks: Chunks): Chunks {
    for await (const chunk of chunks) {
      this.size += chunk.length;
      this.#bytes = [...this.#bytes, ...chunk.subarray(-8)].slice(-8);
      yield chunk;
    }
  }

  isWhole(): boolean {
    return this.#bytes.length === 8 && this.#bytes.every((byte, at) => byte === (at < 4 ? 255 : 0));
  }
}

/** Kinds that no text of a CSV would stand for. */
const unreadKinds: ReadonlySet<Type> = new Set([
  ...[Type.Struct, Type.Map, Type.Union, Type.Binary, Type.LargeBinary, Type.FixedSizeBinary],
  ...[Type.Time, Type.Interval, Type.Duration],
]);
const isUnread = ({ typeId }: DataType): boolean => unreadKinds.has(typeId);

/** A column as texts, null being blank. @param most values that the file has room for */
function textsOf(batch: RecordBatch, { name, type }: Field, index: number, most: number): (string | null)[] {
  const vector = batch.getChildAt(index);
  if (!vector) throw new Error(`column ${name} is missing from a batch of rows`);
  const words = vector.data.map(({ dictionary }) => dictionary?.length ?? 0);
  if (Math.max(vector.length, ...words) > most) throw new Error(`its column ${name} has more values than it can hold`);
  if (isList(type)) return listTexts(vector, most);
  // To the last digit, of which a number would lose some.
  if (DataType.isInt(type) && type.bitWidth === 64)
    return Array.from(vector, (value: bigint | null) => value?.toString() ?? null);
  const { columns } = decodeArrow(new Table({ [name]: vector }), { datesAsText: true });
  const column = columns[name]!;
  if (!(column instanceof Float64Array)) return column;
  const yesNo = DataType.isBool(type);
  return Array.from(column, (value) => (Number.isNaN(value) ? null : yesNo ? (value ? 'yes' : 'no') : String(value)));
}

const isList = (type: DataType): boolean => DataType.isList(type) || DataType.isFixedSizeList(type);

function listTexts(vector: Vector, most: number): (string | null)[] {
  let left = most;
  return Array.from(vector, (words: Vector | null) => {
    left -= words?.length ?? 0;
    if (left < 0) throw new Error('its lists have more values than it can hold');
    return words === null ? null : [...words].join(';');
  });
}
