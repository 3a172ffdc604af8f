import { DuckDBDataChunk, type DuckDBConnection, type DuckDBType } from '@duckdb/node-api';
import { BIGINT, DATE, DOUBLE, INTEGER, VARCHAR } from '@duckdb/node-api';
import bindings from '@duckdb/node-bindings';
import type { AppendPlan, NumberType, PlannedColumn } from './append-plan.ts';
import type { TextBuffer } from './engine.ts';
import { encodedWords } from './text-buffer.ts';

const typeOf = { DOUBLE, INTEGER, BIGINT, DATE, VARCHAR } as const satisfies Record<string, DuckDBType>;
const chunkRows = bindings.vector_size();

/** How many bytes DuckDB keeps inside a string's own slot: four of length, then the text if it is short. */
const slotBytes = 16;
const inlineBytes = 12;

type Fill = (vector: bindings.Vector, from: number, rows: number) => void;

/**
 * Rows through the appender, a vector at a time, each copied as one block of memory: setting a
 * value at a time costs many times as much, above all where values are missing.
 */
export async function appendNative(connection: DuckDBConnection, table: string, plan: AppendPlan): Promise<void> {
  const appender = await connection.createAppender(table, 'main');
  try {
    const types = plan.columns.map(({ type }) => typeOf[type]);
    const fills = plan.columns.map(fillOf);
    for (let from = 0; from < plan.rows; from += chunkRows) {
      const rows = Math.min(chunkRows, plan.rows - from);
      const chunk = DuckDBDataChunk.create(types, rows);
      fills.forEach((fill, index) => fill(bindings.data_chunk_get_vector(chunk.chunk, index), from, rows));
      appender.appendDataChunk(chunk);
    }
    appender.flushSync();
  } finally {
    appender.closeSync();
  }
}

function fillOf(column: PlannedColumn): Fill {
  if ('numbers' in column) return numberFill(column.type, column.numbers);
  if ('text' in column) return textFill(column.text);
  const words = encodedWords(column.coded);
  const { codes } = column.coded;
  return slotFill(
    (row) => codes[row] !== 0,
    (row) => words[codes[row]!]!,
  );
}

function numberFill(type: NumberType, numbers: Float64Array): Fill {
  return (vector, from, rows) => {
    const part = numbers.subarray(from, from + rows);
    if (type === 'DOUBLE') copy(vector, Float64Array.from(part));
    else if (type === 'BIGINT')
      copy(
        vector,
        BigInt64Array.from(part, (value) => (value === value ? BigInt(value) : 0n)),
      );
    else copy(vector, Int32Array.from(part));
    markNulls(vector, rows, (row) => part[row] === part[row]);
  };
}

const textFill = ({ offsets, bytes, known }: TextBuffer): Fill =>
  slotFill(
    (row) => known[row] !== 0,
    (row) => bytes.subarray(offsets[row], offsets[row + 1]),
  );

/** Short texts are written into their slots and copied together; longer ones DuckDB has to place itself. */
function slotFill(known: (row: number) => boolean, text: (row: number) => Uint8Array): Fill {
  return (vector, from, rows) => {
    const slots = new Uint8Array(rows * slotBytes);
    const long: number[] = [];
    for (let row = 0; row < rows; row++) {
      if (!known(from + row)) continue;
      const bytes = text(from + row);
      if (bytes.length > inlineBytes) long.push(row);
      else {
        slots[row * slotBytes] = bytes.length;
        slots.set(bytes, row * slotBytes + 4);
      }
    }
    copy(vector, slots);
    for (const row of long) bindings.vector_assign_string_element_len(vector, row, text(from + row));
    markNulls(vector, rows, (row) => known(from + row));
  };
}

function copy(vector: bindings.Vector, values: Float64Array | BigInt64Array | Int32Array | Uint8Array): void {
  bindings.copy_data_to_vector(vector, 0, values.buffer as ArrayBuffer, values.byteOffset, values.byteLength);
}

function markNulls(vector: bindings.Vector, rows: number, known: (row: number) => boolean): void {
  // One bit a row, set where known, in whole 64-bit words.
  const bits = new Uint8Array(Math.ceil(rows / 64) * 8).fill(255);
  let nulls = 0;
  for (let row = 0; row < rows; row++) {
    if (known(row)) continue;
    bits[row >> 3]! &= ~(1 << (row & 7));
    nulls++;
  }
  if (nulls === 0) return;
  bindings.vector_ensure_validity_writable(vector);
  bindings.copy_data_to_vector_validity(vector, 0, bits.buffer, 0, bits.byteLength);
}
