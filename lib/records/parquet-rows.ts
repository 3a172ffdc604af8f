import { parquetMetadataAsync, parquetRead, parquetSchema, type FileMetaData, type SchemaTree } from 'hyparquet';
import { compressors } from 'hyparquet-compressors';
import { valueCell } from './object-cells.ts';
import type { OpenRows, Outcome, RowSink, Say } from './row-sink.ts';
import type { SourceBytes } from './source-bytes.ts';
import { TextRow } from './text-row.ts';

/** Bytes that one block of rows may unpack to: all its columns are held at once. */
const largestGroup = 2 ** 31;

/** Where the values of a column lie: in a column of the file, or inside the objects that stand there. */
interface Leaf {
  readonly header: string;
  readonly column: string;
  readonly within: readonly string[];
  readonly fault: string | null;
}

/** Beyond all days it stays a number, as which no column of days takes it: a blank would say that none was written. */
const isoDay = (milliseconds: number): string =>
  Math.abs(milliseconds) <= 8.64e15 ? new Date(milliseconds).toISOString().slice(0, 10) : String(milliseconds);

/** Days and times become ISO days, as in a CSV of the same table; JSON stays text. */
const parsers = {
  dateFromDays: (days: number) => isoDay(days * 86_400_000),
  timestampFromMilliseconds: (milliseconds: bigint) => isoDay(Number(milliseconds)),
  timestampFromMicroseconds: (microseconds: bigint) => isoDay(Number(microseconds / 1000n)),
  timestampFromNanoseconds: (nanoseconds: bigint) => isoDay(Number(nanoseconds / 1_000_000n)),
  jsonFromBytes: (bytes: Uint8Array) => new TextDecoder().decode(bytes),
};

/**
 * Reads Parquet into rows, the first being row 1, one block of rows at a time. A cell becomes the text
 * that a CSV of the same table would hold: whole numbers to the last digit, booleans as yes and no,
 * lists as `a;b`, objects as columns `outer.inner`.
 * @throws what the reader of Parquet says where the file is damaged or cut short
 */
export async function readParquetRows(bytes: SourceBytes, openRows: OpenRows, say: Say): Promise<Outcome> {
  const file = { byteLength: bytes.size, slice: async (start: number, end = bytes.size) => sliced(bytes, start, end) };
  const metadata = await parquetMetadataAsync(file, { geoparquet: false });
  const odd = oddity(metadata, bytes.size);
  if (odd) return odd;
  const leaves = leavesOf(parquetSchema(metadata));
  const unread = leaves.filter(({ fault }) => fault !== null);
  const rows = await openRows(leaves.map(({ header }) => header));
  if (typeof rows === 'string') return rows;
  if (unread.length > 0)
    say(`has columns of a kind that is not read: ${unread.map(({ header }) => header).join(', ')}`);
  const columns = [...new Set(leaves.filter(({ fault }) => fault === null).map(({ column }) => column))];
  let start = 0;
  for (const { num_rows } of metadata.row_groups) {
    const end = start + Number(num_rows);
    const values = new Map<string, ArrayLike<unknown>>();
    for (const column of columns) {
      const options = { file, metadata, compressors, parsers, geoparquet: false, columns: [column] };
      const chunks: ArrayLike<unknown>[] = [];
      const onChunk = ({ columnData }: { columnData: ArrayLike<unknown> }) => void chunks.push(columnData);
      await parquetRead({ ...options, rowStart: start, rowEnd: end, onChunk });
      values.set(column, whole(chunks, end - start, column));
    }
    await takeGroup(leaves, values, start, end, rows);
    start = end;
  }
  await rows.finish();
  return null;
}

async function sliced(bytes: SourceBytes, start: number, end: number): Promise<ArrayBuffer> {
  if (!(start >= 0 && end >= start && end <= bytes.size)) throw new Error('it points to places beyond its end');
  return (await bytes.read(start, end)).buffer;
}

function whole(chunks: readonly ArrayLike<unknown>[], rows: number, column: string): ArrayLike<unknown> {
  const [only] = chunks;
  const values = chunks.length === 1 && only ? only : chunks.flatMap((chunk) => Array.from(chunk));
  if (values.length === rows) return values;
  throw new Error(`its column ${column} has ${values.length} values for ${rows} rows`);
}

/** What a damaged or hostile file would have us do. */
function oddity({ row_groups, num_rows }: FileMetaData, size: number): string | null {
  const rows = row_groups.reduce((sum, group) => sum + Number(group.num_rows), 0);
  if (!(rows >= 0)) return 'is damaged: it does not say how many rows it has';
  if (rows !== Number(num_rows)) return `says it has ${num_rows} rows, and has ${rows}`;
  for (const { columns, total_byte_size } of row_groups) {
    const packed = columns.reduce((sum, { meta_data }) => sum + Number(meta_data?.total_compressed_size ?? 0), 0);
    if (packed > size) return 'is damaged: it says that it is longer than it is';
    if (Number(total_byte_size) > largestGroup)
      return `has blocks of rows of more than ${largestGroup} bytes; write it with smaller row groups`;
  }
  return null;
}

/** The columns of a schema, those of objects opened. */
function leavesOf({ children }: SchemaTree): Leaf[] {
  const below = (tree: SchemaTree, column: string, within: readonly string[]): Leaf[] => {
    const { element } = tree;
    if (isObject(tree)) return tree.children.flatMap((child) => below(child, column, [...within, child.element.name]));
    const { converted_type: type } = element;
    const fault = type === 'INTERVAL' || type === 'BSON' ? `a value of the kind ${type}, which is not read` : null;
    return [{ header: [column, ...within].join('.'), column, within, fault }];
  };
  return children.flatMap((child) => below(child, child.element.name, []));
}

const isObject = ({ children, element }: SchemaTree): boolean =>
  children.length > 0 &&
  element.repetition_type !== 'REPEATED' &&
  element.converted_type === undefined &&
  element.logical_type === undefined;

async function takeGroup(
  leaves: readonly Leaf[],
  columns: ReadonlyMap<string, ArrayLike<unknown>>,
  start: number,
  end: number,
  rows: RowSink,
): Promise<void> {
  const values = leaves.map(({ column }) => columns.get(column));
  let at = 0;
  const valueOf = (index: number): unknown => {
    let value: unknown = values[index]?.[at];
    for (const name of leaves[index]?.within ?? [])
      value = (value as Record<string, unknown> | null | undefined)?.[name];
    return value;
  };
  const cut = new TextRow(
    () => leaves.length,
    (index) => textOf(valueOf(index)),
    (index) => leaves[index]?.fault ?? null,
  );
  for (; at < end - start; at++) {
    rows.row(cut, start + at + 1);
    if (rows.full) await rows.send();
  }
}

/** Numbers come from binary ones here, so those too long to be exact were so before. */
const textOf = (value: unknown): string | null =>
  value instanceof Uint8Array ? new TextDecoder().decode(value) : valueCell(value).text;
