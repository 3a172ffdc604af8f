import { DataType, RecordBatchReader, Table, type Field, type RecordBatch, type Vector } from 'apache-arrow';
import type { TableName } from '../../shared/record-tables.ts';
import { decodeArrow } from '../engine/arrow-decode.ts';
import { ArrowRow } from './arrow-row.ts';
import type { FileRows } from './file-rows.ts';
import { readHeader, type Header } from './header.ts';

type Chunks = AsyncGenerator<Uint8Array, void, undefined>;

/**
 * Reads Arrow IPC, file or stream, into rows, the first being row 1. A cell becomes the text that a
 * CSV of the same table would hold: dates and times as ISO days, booleans as yes and no, lists as `a;b`.
 * @param rowsFor is given the header as soon as it is known
 * @returns the rows, or why the file as a whole cannot be used
 * @throws what Arrow says where the file is damaged, cut short or of a type it does not know
 */
export async function readArrowRows(
  chunks: Chunks,
  table: TableName,
  rowsFor: (header: Header) => Promise<FileRows>,
): Promise<FileRows | string> {
  const reader = await RecordBatchReader.from(chunks);
  await reader.open();
  const fields = reader.schema.fields as Field[];
  const header = readHeader(
    table,
    fields.map(({ name }) => name),
  );
  if (typeof header === 'string') return header;
  const rows = await rowsFor(header);
  let line = 1;
  for await (const batch of reader) {
    const row = new ArrowRow(fields.map((field, index) => textsOf(batch, field, index)));
    for (row.index = 0; row.index < batch.numRows; row.index++) {
      rows.row(row, line++);
      if (rows.full) await rows.send();
    }
  }
  await rows.finish();
  return rows;
}

/** A column as texts, null being blank. */
function textsOf(batch: RecordBatch, { name, type }: Field, index: number): (string | null)[] {
  const vector = batch.getChildAt(index);
  if (!vector) throw new Error(`column ${name} is missing from a batch of rows`);
  if (isList(type)) return Array.from(vector as Vector, listText);
  const { columns } = decodeArrow(new Table({ [name]: vector }), { datesAsText: true });
  const column = columns[name]!;
  if (!(column instanceof Float64Array)) return column;
  const yesNo = DataType.isBool(type);
  return Array.from(column, (value) => (Number.isNaN(value) ? null : yesNo ? (value ? 'yes' : 'no') : String(value)));
}

const isList = (type: DataType): boolean => DataType.isList(type) || DataType.isFixedSizeList(type);

const listText = (words: Iterable<unknown> | null): string | null => (words === null ? null : [...words].join(';'));
