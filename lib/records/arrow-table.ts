import { DataType, RecordBatchReader, Type, type Field, type RecordBatch, type Vector } from 'apache-arrow';
import type { TableName } from '../../shared/record-tables.ts';
import type { CellText } from './cell-text.ts';
import type { CutRow } from './cut-row.ts';
import type { FileRows } from './file-rows.ts';
import { readHeader, type Header } from './header.ts';

type Chunks = AsyncGenerator<Uint8Array, void, undefined>;

const encoder = new TextEncoder();

/** An Arrow value as the text that a CSV of the same table would hold; null is blank. */
function textOfValue(value: unknown, type: DataType): string {
  if (value === null || value === undefined) return '';
  if (type.typeId === Type.Dictionary)
    return textOfValue(value, (type as unknown as { dictionary: DataType }).dictionary);
  if (DataType.isBool(type)) return value === true ? 'yes' : 'no';
  if (DataType.isDate(type) || DataType.isTimestamp(type)) return new Date(Number(value)).toISOString().slice(0, 10);
  if (DataType.isDecimal(type)) return decimalText(value as Uint32Array, type.scale);
  if (DataType.isList(type) || DataType.isFixedSizeList(type)) {
    const of = type.children[0]?.type;
    return of ? [...(value as Iterable<unknown>)].map((item) => textOfValue(item, of)).join(';') : '';
  }
  if (typeof value === 'number' || typeof value === 'bigint' || typeof value === 'string') return String(value);
  return `(${String(type)})`;
}

/** A decimal's four little-endian words as digits with their point. */
function decimalText(words: Uint32Array, scale: number): string {
  let whole = 0n;
  for (let word = words.length - 1; word >= 0; word--) whole = (whole << 32n) | BigInt(words[word]!);
  const signed = BigInt.asIntN(words.length * 32, whole);
  const digits = (signed < 0n ? -signed : signed).toString().padStart(scale + 1, '0');
  const text = scale > 0 ? `${digits.slice(0, -scale)}.${digits.slice(-scale)}` : digits;
  return signed < 0n ? `-${text}` : text;
}

/** One row of a record batch. */
class ArrowRow implements CutRow {
  row = 0;
  readonly #columns: readonly { readonly vector: Vector | null; readonly type: DataType }[];

  constructor(batch: RecordBatch) {
    this.#columns = batch.schema.fields.map((field, index) => ({
      vector: batch.getChildAt(index),
      type: field.type as DataType,
    }));
  }

  cell(index: number, text: CellText): boolean {
    const bytes = encoder.encode(this.shown(index));
    return text.take(
      bytes,
      0,
      bytes.length,
      false,
      bytes.some((byte) => byte > 127),
    );
  }

  shown(index: number): string {
    const column = this.#columns[index];
    return column ? textOfValue(column.vector?.get(this.row), column.type) : '';
  }

  original(): string {
    return this.#columns.map((_, index) => this.shown(index)).join(',');
  }
}

/**
 * Reads a table of Arrow IPC, file or stream, batch by batch. Rows are counted from 1.
 * @returns the account, or why the file as a whole cannot be used
 * @throws what Arrow throws where the file is damaged or cut short
 */
export async function readArrowTable(
  table: TableName,
  chunks: Chunks,
  begin: (header: Header) => FileRows,
): Promise<FileRows | string> {
  const reader = await RecordBatchReader.from(chunks);
  await reader.open();
  const header = readHeader(
    table,
    (reader.schema.fields as Field[]).map(({ name }) => name),
  );
  if (typeof header === 'string') return header;
  const rows = begin(header);
  let before = 0;
  for await (const batch of reader) {
    const row = new ArrowRow(batch);
    for (row.row = 0; row.row < batch.numRows; row.row++) {
      rows.row(row, before + row.row + 1);
      if (rows.full) await rows.send();
    }
    before += batch.numRows;
  }
  await rows.finish();
  return rows;
}
