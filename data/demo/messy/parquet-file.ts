import type { WrittenFile } from './delimited-file.ts';
import type { Cell, Grid } from './listing.ts';
import { CompactThrift } from './compact-thrift.ts';

/** Physical and converted types of the Parquet format. */
const kinds = {
  day: { type: 1, converted: 6 },
  number: { type: 5, converted: null },
  text: { type: 6, converted: 0 },
} as const;
type Kind = keyof typeof kinds;

const encoder = new TextEncoder();

function kindOf(cells: readonly Cell[]): Kind {
  const filled = cells.filter((cell) => cell !== null);
  if (filled.length > 0 && filled.every((cell) => typeof cell === 'number')) return 'number';
  return filled.length > 0 && filled.every((cell) => typeof cell === 'object') ? 'day' : 'text';
}

function plain(cell: Cell, kind: Kind): Uint8Array {
  if (kind === 'text') {
    const text = encoder.encode(typeof cell === 'object' ? (cell?.day ?? '') : String(cell));
    const bytes = new Uint8Array(4 + text.length);
    new DataView(bytes.buffer).setUint32(0, text.length, true);
    bytes.set(text, 4);
    return bytes;
  }
  const bytes = new Uint8Array(kind === 'number' ? 8 : 4);
  const view = new DataView(bytes.buffer);
  if (typeof cell === 'number') view.setFloat64(0, cell, true);
  else if (cell !== null && typeof cell === 'object') view.setInt32(0, Date.parse(cell.day) / 86_400_000, true);
  return bytes;
}

/** Which cells are filled, as runs of ones and zeros (definition levels, encoding RLE), their length in front. */
function filledRuns(cells: readonly Cell[]): Uint8Array {
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

const joined = (pieces: readonly Uint8Array[]): Uint8Array => new Uint8Array(Buffer.concat(pieces));

interface Chunk {
  readonly header: string;
  readonly kind: Kind;
  readonly bytes: Uint8Array;
}

/** A column as one page, plain and not packed. */
function chunkOf(header: string, cells: readonly Cell[]): Chunk {
  const kind = kindOf(cells);
  const values = cells.filter((cell) => cell !== null).map((cell) => plain(cell, kind));
  const page = joined([filledRuns(cells), ...values]);
  const head = new CompactThrift();
  head.integer(1, 0).integer(2, page.length).integer(3, page.length);
  head.struct(5, (data) => data.integer(1, cells.length).integer(2, 0).integer(3, 3).integer(4, 3));
  return { header, kind, bytes: joined([head.end(), page]) };
}

function footer(chunks: readonly Chunk[], rows: number): Uint8Array {
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
  return meta.text(6, 'hubcause demo').end();
}

/** A Parquet file of one block of rows, by the format's specification (version 1 pages). Rows count from 1. */
export function parquetFile({ headers, rows }: Grid): WrittenFile {
  const chunks = headers.map((header, at) =>
    chunkOf(
      header,
      rows.map(({ cells }) => (cells[at] === '' ? null : (cells[at] ?? null))),
    ),
  );
  const foot = footer(chunks, rows.length);
  const length = new Uint8Array(4);
  new DataView(length.buffer).setUint32(0, foot.length, true);
  const mark = encoder.encode('PAR1');
  const bytes = joined([mark, ...chunks.map((chunk) => chunk.bytes), foot, length, mark]);
  return { bytes, lines: rows.map((_, at) => at + 1) };
}
