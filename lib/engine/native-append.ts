import { DuckDBDataChunk, type DuckDBConnection, type DuckDBType } from '@duckdb/node-api';
import { BIGINT, DATE, DOUBLE, INTEGER, VARCHAR } from '@duckdb/node-api';
import bindings from '@duckdb/node-bindings';
import type { AppendPlan, NumberType, PlannedColumn } from './append-plan.ts';
import { codedSlots, textSlots } from './native-text.ts';
import { copy, markNulls, type Fill } from './native-vector.ts';

const typeOf = { DOUBLE, INTEGER, BIGINT, DATE, VARCHAR } as const satisfies Record<string, DuckDBType>;
const chunkRows = bindings.vector_size();

/**
 * Rows through the appender, a vector at a time, each copied as one block of memory: setting a
 * value at a time costs many times as much, above all where values are missing.
 */
export async function appendNative(connection: DuckDBConnection, table: string, plan: AppendPlan): Promise<void> {
  const appender = await connection.createAppender(table, 'main');
  try {
    const fills = plan.columns.map(fillOf);
    const chunk = DuckDBDataChunk.create(plan.columns.map(({ type }) => typeOf[type]));
    for (let from = 0; from < plan.rows; from += chunkRows) {
      const rows = Math.min(chunkRows, plan.rows - from);
      chunk.reset();
      chunk.rowCount = rows;
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
  const [slots, known] =
    'text' in column
      ? [textSlots(column.text, chunkRows), column.text.known]
      : [codedSlots(column.coded, chunkRows), column.coded.codes];
  return (vector, from, rows) => {
    slots(vector, from, rows);
    markNulls(vector, known.subarray(from, from + rows));
  };
}

function numberFill(type: NumberType, numbers: Float64Array): Fill {
  const whole = new Int32Array(chunkRows * 2);
  return (vector, from, rows) => {
    const part = numbers.subarray(from, from + rows);
    const known = knownIn(part);
    if (type === 'DOUBLE') copy(vector, known ? withoutNaN(part) : part, rows * 8);
    else if (type === 'BIGINT') copy(vector, halves(part, whole), rows * 8);
    else copy(vector, integers(part, whole), rows * 4);
    if (known) markNulls(vector, known);
  };
}

/** 1 where there is a number, 0 for NaN; null where there is one everywhere. */
function knownIn(numbers: Float64Array): Uint8Array | null {
  let known: Uint8Array | null = null;
  for (let row = 0; row < numbers.length; row++) {
    if (numbers[row] === numbers[row]) continue;
    known ??= new Uint8Array(numbers.length).fill(1);
    known[row] = 0;
  }
  return known;
}

const withoutNaN = (numbers: Float64Array): Float64Array => numbers.map((value) => (value === value ? value : 0));

/** A typed array of integers takes NaN for 0. */
function integers(numbers: Float64Array, into: Int32Array): Int32Array {
  for (let row = 0; row < numbers.length; row++) into[row] = numbers[row]!;
  return into;
}

/** Whole numbers in 64 bits, the low half first: BigInt would make an object of each. */
function halves(numbers: Float64Array, into: Int32Array): Int32Array {
  for (let row = 0; row < numbers.length; row++) {
    into[row * 2] = numbers[row]!;
    into[row * 2 + 1] = Math.floor(numbers[row]! / 2 ** 32);
  }
  return into;
}
