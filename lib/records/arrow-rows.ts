import { DataType, RecordBatchReader, Table, type Field, type RecordBatch } from 'apache-arrow';
import { decodeArrow } from '../engine/arrow-decode.ts';
import type { Chunks } from './record-source.ts';
import type { OpenRows, Outcome } from './row-sink.ts';
import type { SourceBytes } from './source-bytes.ts';
import { TextRow } from './text-row.ts';

/**
 * Reads an Arrow IPC file into rows, one batch at a time from wherever the file says it stands; the
 * first row is row 1. A cell becomes the text that a CSV of the same table would hold: dates and times
 * as ISO days, booleans as yes and no, lists as `a;b`.
 * @param openRows is given the headers as soon as they are known
 * @throws what Arrow says where the file is damaged or of a type it does not know
 */
export async function readArrowFile(bytes: SourceBytes, openRows: OpenRows): Promise<Outcome> {
  const end = await bytes.read(Math.max(0, bytes.size - fileMark.length), bytes.size);
  if (bytes.size < 2 * fileMark.length || new TextDecoder().decode(end) !== fileMark) return cutShort;
  const reader = await RecordBatchReader.from(fileHandle(bytes));
  return readBatches(reader, openRows);
}

/** Reads an Arrow IPC stream into rows, by the rules of a file. */
export async function readArrowStream(chunks: Chunks, openRows: OpenRows): Promise<Outcome> {
  const tail = new Tail();
  const reader = await RecordBatchReader.from(tail.watch(chunks));
  return (await readBatches(reader, openRows)) ?? (tail.isWhole() ? null : cutShort);
}

const fileMark = 'ARROW1';
const cutShort = 'is cut short: the mark that ends Arrow data is missing';

/** Bytes in the shape of a file that Arrow reads from any place; otherwise it holds all of a file in memory. */
function fileHandle({ size, read }: SourceBytes): Parameters<typeof RecordBatchReader.from>[0] & AsyncIterable<never> {
  const handle = {
    fd: 0,
    stat: () => Promise.resolve({ size }),
    async read(buffer: Uint8Array, offset: number, length: number, position: number) {
      const bytes = await read(position, position + length);
      if (bytes.length === 0) throw new Error('it points to places beyond its end');
      buffer.set(bytes, offset);
      return { bytesRead: bytes.length, buffer };
    },
    close: () => Promise.resolve(),
  };
  return handle as never;
}

type BatchReader = AsyncIterable<RecordBatch> & Pick<RecordBatchReader, 'schema'> & { open(): unknown };

/** Arrow says no more of a kind that it does not read than that it is one. */
const notRead: readonly (readonly [said: RegExp, outcome: string])[] = [
  [/compression/i, 'is compressed inside; write it without compression, or as Parquet, or pack it by gzip'],
  [/Unrecognized type/, 'has a column of a newer kind of Arrow than is read here; write it as Parquet, or as CSV'],
];

async function readBatches(reader: BatchReader, openRows: OpenRows): Promise<Outcome> {
  try {
    return await takeBatches(reader, openRows);
  } catch (error) {
    const known = notRead.find(([said]) => error instanceof Error && said.test(error.message));
    if (known) return known[1];
    throw error;
  }
}

async function takeBatches(reader: BatchReader, openRows: OpenRows): Promise<Outcome> {
  await reader.open();
  const fields = reader.schema.fields;
  const rows = await openRows(fields.map(({ name }) => name));
  if (typeof rows === 'string') return rows;
  let line = 1;
  for await (const batch of reader) {
    const columns = fields.map((field, index) => textsOf(batch, field, index));
    let index = 0;
    const row = new TextRow(
      () => columns.length,
      (column) => columns[column]?.[index] ?? null,
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
  #bytes: number[] = [];

  async *watch(chunks: Chunks): Chunks {
    for await (const chunk of chunks) {
      this.#bytes = [...this.#bytes, ...chunk.subarray(-8)].slice(-8);
      yield chunk;
    }
  }

  isWhole(): boolean {
    return this.#bytes.length === 8 && this.#bytes.every((byte, at) => byte === (at < 4 ? 255 : 0));
  }
}

/** A column as texts, null being blank. */
function textsOf(batch: RecordBatch, { name, type }: Field, index: number): (string | null)[] {
  const vector = batch.getChildAt(index);
  if (!vector) throw new Error(`column ${name} is missing from a batch of rows`);
  if (isList(type)) return Array.from(vector, listText);
  const { columns } = decodeArrow(new Table({ [name]: vector }), { datesAsText: true });
  const column = columns[name]!;
  if (!(column instanceof Float64Array)) return column;
  const yesNo = DataType.isBool(type);
  return Array.from(column, (value) => (Number.isNaN(value) ? null : yesNo ? (value ? 'yes' : 'no') : String(value)));
}

const isList = (type: DataType): boolean => DataType.isList(type) || DataType.isFixedSizeList(type);

const listText = (words: Iterable<unknown> | null): string | null => (words === null ? null : [...words].join(';'));
