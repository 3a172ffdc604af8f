import { DataType, RecordBatchReader, Table, type Field, type RecordBatch } from 'apache-arrow';
import { decodeArrow } from '../engine/arrow-decode.ts';
import type { Chunks } from './record-source.ts';
import type { OpenRows, Outcome } from './row-sink.ts';
import { TextRow } from './text-row.ts';

/**
 * Reads Arrow IPC, file or stream, into rows, the first being row 1. A cell becomes the text that a
 * CSV of the same table would hold: dates and times as ISO days, booleans as yes and no, lists as `a;b`.
 * @param openRows is given the headers as soon as they are known
 * @throws what Arrow says where the file is damaged, cut short or of a type it does not know
 */
export async function readArrowRows(chunks: Chunks, openRows: OpenRows): Promise<Outcome> {
  const tail = new Tail();
  const reader = await RecordBatchReader.from(tail.watch(chunks));
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
  return tail.isWhole() ? null : 'is cut short: the mark that ends Arrow data is missing';
}

/**
 * The last bytes of a file. Arrow takes a stream that ends between two batches for a whole one;
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
    const endsStream = this.#bytes.length === 8 && this.#bytes.every((byte, at) => byte === (at < 4 ? 255 : 0));
    return endsStream || String.fromCharCode(...this.#bytes.slice(2)) === 'ARROW1';
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
