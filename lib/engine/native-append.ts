import { DuckDBDataChunk, type DuckDBConnection, type DuckDBType } from '@duckdb/node-api';
import { BIGINT, DATE, DOUBLE, INTEGER, VARCHAR } from '@duckdb/node-api';
import bindings from '@duckdb/node-bindings';
import type { AppendPlan, NumberType, PlannedColumn } from './append-plan.ts';
import type { CodedText, TextBuffer } from './engine.ts';

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
  return 'text' in column ? textFill(column.text) : codedFill(column.coded);
}

function numberFill(type: NumberType, numbers: Float64Array): Fill {
  return (vector, from, rows) => {
    const part = numbers.slice(from, from + rows);
    const known = new Uint8Array(rows);
    for (let row = 0; row < rows; row++) {
      if (part[row] === part[row]) known[row] = 1;
      else part[row] = 0;
    }
    if (type === 'DOUBLE') copy(vector, part);
    else if (type === 'BIGINT') copy(vector, BigInt64Array.from(part, BigInt));
    else copy(vector, new Int32Array(part));
    markNulls(vector, known);
  };
}

function textFill({ offsets, bytes, known }: TextBuffer): Fill {
  return (vector, from, rows) => {
    const slots = new Uint8Array(rows * slotBytes);
    const long: number[] = [];
    for (let row = 0; row < rows; row++) {
      const start = offsets[from + row]!;
      const length = offsets[from + row + 1]! - start;
      if (length > inlineBytes) {
        long.push(row);
        continue;
      }
      const slot = row * slotBytes;
      slots[slot] = length;
      for (let byte = 0; byte < length; byte++) slots[slot + 4 + byte] = bytes[start + byte]!;
    }
    copy(vector, slots);
    for (const row of long) {
      const text = bytes.subarray(offsets[from + row], offsets[from + row + 1]);
      bindings.vector_assign_string_element_len(vector, row, text);
    }
    markNulls(vector, known.subarray(from, from + rows));
  };
}

function codedFill({ codes, words }: CodedText): Fill {
  const texts = ['', ...words].map((word) => new TextEncoder().encode(word));
  const ready = new Uint8Array(texts.length * slotBytes);
  texts.forEach((text, code) => {
    if (text.length <= inlineBytes) ready.set([text.length, 0, 0, 0, ...text], code * slotBytes);
  });
  const longest = Math.max(...texts.map(({ length }) => length));
  // Four 32-bit words make a slot.
  const readyWords = new Uint32Array(ready.buffer);
  return (vector, from, rows) => {
    const part = codes.subarray(from, from + rows);
    const slots = new Uint32Array(rows * 4);
    for (let row = 0; row < rows; row++) {
      for (let word = 0; word < 4; word++) slots[row * 4 + word] = readyWords[part[row]! * 4 + word]!;
    }
    copy(vector, slots);
    if (longest > inlineBytes) {
      for (let row = 0; row < rows; row++) {
        const text = texts[part[row]!]!;
        if (text.length > inlineBytes) bindings.vector_assign_string_element_len(vector, row, text);
      }
    }
    markNulls(vector, part);
  };
}

function copy(vector: bindings.Vector, values: ArrayBufferView): void {
  bindings.copy_data_to_vector(vector, 0, values.buffer as ArrayBuffer, values.byteOffset, values.byteLength);
}

/** One bit a row, set where `known` is not 0, in whole 64-bit words. */
function markNulls(vector: bindings.Vector, known: Uint8Array): void {
  const bits = new Uint8Array(Math.ceil(known.length / 64) * 8).fill(255);
  let nulls = 0;
  for (let row = 0; row < known.length; row++) {
    if (known[row] !== 0) continue;
    bits[row >> 3]! &= ~(1 << (row & 7));
    nulls++;
  }
  if (nulls === 0) return;
  bindings.vector_ensure_validity_writable(vector);
  bindings.copy_data_to_vector_validity(vector, 0, bits.buffer, 0, bits.byteLength);
}
