import { CompactThrift } from './compact-thrift.ts';
import type { ResultColumn, ResultTable } from './engine.ts';

/** Physical and converted types of the Parquet format; a day counts from 1970-01-01. */
const kinds = {
  day: { type: 1, converted: 6 },
  number: { type: 5, converted: null },
  text: { type: 6, converted: 0 },
} as const;

/** One column to be written: its cells in order, null where not known. */
export type ParquetColumn = { readonly header: string } & (
  | { readonly kind: 'day' | 'number'; readonly cells: readonly (number | null)[] }
  | { readonly kind: 'text'; readonly cells: readonly (string | null)[] }
);

const encoder = new TextEncoder();

/** Numbers, days, or texts with their lengths in front, those that are known one after the other. */
function plain(column: ParquetColumn): Uint8Array {
  if (column.kind === 'text') {
    const texts = column.cells.flatMap((cell) => (cell === null ? [] : [encoder.encode(cell)]));
    const bytes = new Uint8Array(texts.reduce((sum, { length }) => sum + 4 + length, 0));
    const view = new DataView(bytes.buffer);
    let at = 0;
    for (const text of texts) {
      view.setUint32(at, text.length, true);
      bytes.set(text, at + 4);
      at += 4 + text.length;
    }
    return bytes;
  }
  const known = column.cells.filter((cell) => cell !== null);
  const size = column.kind === 'number' ? 8 : 4;
  const bytes = new Uint8Array(known.length * size);
  const view = new DataView(bytes.buffer);
  for (const [at, cell] of known.entries())
    if (size === 8) view.setFloat64(at * size, cell, true);
    else view.setInt32(at * size, cell, true);
  return bytes;
}

/** Which cells are filled, as runs of ones and zeros (definition levels, encoding RLE), their length in front. */
function filledRuns(cells: readonly unknown[]): Uint8Array {
  const runs: number[] = [];
  for (let at = 0; at < cells.length;) {
    const filled = cells[at] !== null;
    let end = at;
    while (end < cells.length && (cells[end] !== null) === filled) end++;
    for (let left = (end - at) * 2; ; left >>>= 7) {
      runs.push(left > 127 ? (left & 127) | 128 : left);
      if (left <= 127) break;
    }
    runs.push(filled ? 1 : 0);
    at = end;
  }
  const bytes = new Uint8Array(4 + runs.length);
  new DataView(bytes.buffer).setUint32(0, runs.length, true);
  bytes.set(runs, 4);
  return bytes;
}

function joined(pieces: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    bytes.set(piece, at);
    at += piece.length;
  }
  return bytes;
}

interface Chunk {
  readonly header: string;
  readonly kind: ParquetColumn['kind'];
  readonly bytes: Uint8Array;
}

/** A column as one page, plain and not packed. */
function chunkOf(column: ParquetColumn): Chunk {
  const { header, kind, cells } = column;
  const page = joined([filledRuns(cells), plain(column)]);
  const head = new CompactThrift();
  head.integer(1, 0).integer(2, page.length).integer(3, page.length);
  head.struct(5, (data) => data.integer(1, cells.length).integer(2, 0).integer(3, 3).integer(4, 3));
  return { header, kind, bytes: joined([head.end(), page]) };
}

function footer(chunks: readonly Chunk[], rows: number, madeBy: string): Uint8Array {
  const meta = new CompactThrift();
  const optional = 1;
  meta.integer(1, 1);
  meta.structs(2, [
    (root) => root.text(4, 'schema').integer(5, chunks.length),
    ...chunks.map(({ header, kind }) => (element: CompactThrift) => {
      const { type, converted } = kinds[kind];
      element.integer(1, type).integer(3, optional).text(4, header);
      return converted === null ? element : element.integer(6, converted);
    }),
  ]);
  meta.long(3, rows);
  let offset = 4;
  const columns = chunks.map(({ header, kind, bytes }) => {
    const at = offset;
    offset += bytes.length;
    return (chunk: CompactThrift) =>
      chunk
        .long(2, at)
        .struct(3, (column) =>
          column
            .integer(1, kinds[kind].type)
            .integers(2, [0, 3])
            .texts(3, [header])
            .integer(4, 0)
            .long(5, rows)
            .long(6, bytes.length)
            .long(7, bytes.length)
            .long(9, at),
        );
  });
  meta.structs(4, [
    (group) =>
      group
        .structs(1, columns)
        .long(2, offset - 4)
        .long(3, rows),
  ]);
  return meta.text(6, madeBy).end();
}

/** A Parquet file of one block of rows, by the format's specification (version 1 pages), wherever there is no DuckDB to write one. */
export function parquetFile(columns: readonly ParquetColumn[], madeBy: string): Uint8Array {
  const rows = columns[0]?.cells.length ?? 0;
  const chunks = columns.map(chunkOf);
  const foot = footer(chunks, rows, madeBy);
  const length = new Uint8Array(4);
  new DataView(length.buffer).setUint32(0, foot.length, true);
  const mark = encoder.encode('PAR1');
  return joined([mark, ...chunks.map(({ bytes }) => bytes), foot, length, mark]);
}

const columnOf = (header: string, column: ResultColumn): ParquetColumn =>
  column instanceof Float64Array
    ? { header, kind: 'number', cells: Array.from(column, (value) => (Number.isNaN(value) ? null : value)) }
    : { header, kind: 'text', cells: column };

/** A result as a Parquet file: numbers as DOUBLE, text as UTF-8, both with nulls. */
export const parquetOfResult = ({ columns }: ResultTable): Uint8Array =>
  parquetFile(
    Object.entries(columns).map(([name, column]) => columnOf(name, column)),
    'hubcause',
  );
