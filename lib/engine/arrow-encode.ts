import {
  DateDay,
  Dictionary,
  Field,
  Float64,
  Int32,
  Int64,
  RecordBatch,
  RecordBatchStreamWriter,
  Schema,
  Struct,
  Uint8,
  Utf8,
  Vector,
  makeData,
  type Data,
} from 'apache-arrow';
import type { AppendPlan, NumberType, PlannedColumn } from './append-plan.ts';
import type { CodedText, TextBuffer } from './engine.ts';
import { textBuffer } from './text-buffer.ts';

/** Rows as an Arrow IPC stream, the one form that DuckDB-WASM takes from any copy of Arrow. */
export function arrowStream({ rows, columns }: AppendPlan): Uint8Array {
  const children = columns.map(arrowData);
  const fields = columns.map(({ name }, index) => Field.new({ name, type: children[index]!.type, nullable: true }));
  const data = makeData({ type: new Struct(fields), length: rows, nullCount: 0, children });
  return RecordBatchStreamWriter.writeAll([new RecordBatch(new Schema(fields), data)]).toUint8Array(true);
}

function arrowData(column: PlannedColumn): Data {
  if ('numbers' in column) return numberData(column.type, column.numbers);
  return 'text' in column ? utf8Data(column.text) : codedData(column.coded);
}

/** Numbers with NaN as null, in the Arrow type nearest to DuckDB's. */
export function numberData(type: NumberType, numbers: Float64Array): Data {
  const known = new Uint8Array(numbers.length);
  for (let row = 0; row < known.length; row++) if (numbers[row] === numbers[row]) known[row] = 1;
  const shape = { length: numbers.length, ...validity(known) };
  if (type === 'DOUBLE') return makeData({ type: new Float64(), data: numbers, ...shape });
  if (type === 'BIGINT') {
    const data = BigInt64Array.from(numbers, (value) => (value === value ? BigInt(value) : 0n));
    return makeData({ type: new Int64(), data, ...shape });
  }
  const data = new Int32Array(numbers);
  return type === 'DATE'
    ? makeData({ type: new DateDay(), data, ...shape })
    : makeData({ type: new Int32(), data, ...shape });
}

export function utf8Data({ offsets, bytes, known }: TextBuffer): Data<Utf8> {
  return makeData({ type: new Utf8(), length: known.length, valueOffsets: offsets, data: bytes, ...validity(known) });
}

function codedData({ codes, words }: CodedText): Data {
  const dictionary = new Vector([utf8Data(textBuffer(words))]);
  const type = new Dictionary(new Utf8(), new Uint8());
  const data = new Uint8Array(codes.length);
  for (let row = 0; row < codes.length; row++) data[row] = Math.max(0, codes[row]! - 1);
  return makeData({ type, length: codes.length, dictionary, data, ...validity(codes) });
}

/** One bit a row, set where `known` is not 0. */
function validity(known: Uint8Array): { nullBitmap: Uint8Array; nullCount: number } {
  const nullBitmap = new Uint8Array((known.length + 7) >> 3);
  let nullCount = known.length;
  for (let row = 0; row < known.length; row++) {
    if (known[row] === 0) continue;
    nullBitmap[row >> 3]! |= 1 << (row & 7);
    nullCount--;
  }
  return { nullBitmap, nullCount };
}
