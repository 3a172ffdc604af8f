import bindings from '@duckdb/node-bindings';

/** Puts rows of a column into a vector; what it works in is used again for the next. */
export type Fill = (vector: bindings.Vector, from: number, rows: number) => void;

export function copy(vector: bindings.Vector, { buffer, byteOffset }: ArrayBufferView, bytes: number): void {
  bindings.copy_data_to_vector(vector, 0, buffer as ArrayBuffer, byteOffset, bytes);
}

/** One bit a row, set where `known` is not 0, in whole 64-bit words. */
export function markNulls(vector: bindings.Vector, known: Uint8Array): void {
  if (!known.includes(0)) return;
  const bits = new Uint8Array(Math.ceil(known.length / 64) * 8).fill(255);
  for (let row = 0; row < known.length; row++) if (known[row] === 0) bits[row >> 3]! &= ~(1 << (row & 7));
  bindings.vector_ensure_validity_writable(vector);
  bindings.copy_data_to_vector_validity(vector, 0, bits.buffer, 0, bits.byteLength);
}
