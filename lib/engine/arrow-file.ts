import { Field, RecordBatch, RecordBatchFileWriter, Schema, Struct, makeData, type TypeMap } from 'apache-arrow';
import { numberData, utf8Data } from './arrow-encode.ts';
import type { ResultColumn, ResultTable } from './engine.ts';
import { textBuffer } from './text-buffer.ts';

/** A result as an Arrow IPC file: numbers as Float64, text as Utf8, both with nulls. */
export const arrowFile = (result: ResultTable): Uint8Array =>
  RecordBatchFileWriter.writeAll([batchOf(result)]).toUint8Array(true);

/** Results of the same columns, one after the other, as one Arrow IPC file: a batch a result. */
export async function arrowFileOfParts(parts: AsyncIterable<ResultTable>): Promise<Uint8Array> {
  const writer = new RecordBatchFileWriter();
  for await (const part of parts) writer.write(batchOf(part));
  return writer.finish().toUint8Array(true);
}

function batchOf({ rows, columns }: ResultTable): RecordBatch<TypeMap> {
  const children = Object.values(columns).map(columnData);
  const fields = Object.keys(columns).map((name, index) => new Field(name, children[index]!.type, true));
  const data = makeData({ type: new Struct(fields), length: rows, nullCount: 0, children });
  return new RecordBatch<TypeMap>(new Schema<TypeMap>(fields), data);
}

const columnData = (column: ResultColumn) =>
  column instanceof Float64Array ? numberData('DOUBLE', column) : utf8Data(textBuffer(column));
