import { Field, RecordBatch, Schema, Struct, Table, makeData, tableToIPC } from 'apache-arrow';
import { numberData, utf8Data } from './arrow-encode.ts';
import type { ResultColumn, ResultTable } from './engine.ts';
import { textBuffer } from './text-buffer.ts';

/** A result as an Arrow IPC file: numbers as Float64, text as Utf8, both with nulls. */
export function arrowFile({ rows, columns }: ResultTable): Uint8Array {
  const children = Object.values(columns).map(columnData);
  const fields = Object.keys(columns).map((name, index) => new Field(name, children[index]!.type, true));
  const data = makeData({ type: new Struct(fields), length: rows, nullCount: 0, children });
  return tableToIPC(new Table([new RecordBatch(new Schema(fields), data)]), 'file');
}

const columnData = (column: ResultColumn) =>
  column instanceof Float64Array ? numberData('DOUBLE', column) : utf8Data(textBuffer(column));
