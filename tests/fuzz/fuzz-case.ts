import type { ColumnMap } from '../../shared/column-map.ts';
import type { TableName } from '../../shared/record-tables.ts';
import type { RecordSource } from '../../lib/records/index.ts';
import type { TextTable } from './valid-tables.ts';

/** A file as it was spoilt. */
export interface SpoiltFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** What is known of a spoilt file, and has to show in what was read of it. */
export interface Truth {
  /** The rows that it still has, each one row; null where the spoiling leaves that open. */
  readonly rows: TextTable['rows'] | null;
  /** Whether the cells of those rows, too, are as they were. */
  readonly cells: boolean;
  /** The table whose texts have to come out as they went in, or null. */
  readonly texts: (Pick<TextTable, 'headers'> & { readonly table: TableName }) | null;
  readonly mayRefuse: boolean;
  /** The whole of a delimited text, all of which has to be in what was kept or set aside. */
  readonly delimited: string | null;
  /** Lines of JSON, each a row. */
  readonly lines: number | null;
}

export const nothingKnown: Truth = {
  rows: null,
  cells: false,
  texts: null,
  mayRefuse: true,
  delimited: null,
  lines: null,
};

export interface FuzzCase {
  readonly format: string;
  readonly mutations: readonly string[];
  readonly spoilt: SpoiltFile;
  readonly truth: Truth;
  readonly sources: readonly RecordSource[];
  /** Rows of the sound files beside it. */
  readonly sound: ReadonlyMap<string, number>;
  readonly maps: readonly ColumnMap[];
}

/** A file in memory, handed out in pieces of some size, and by its parts where it can be. */
export function fileSource({ name, bytes }: SpoiltFile, pieceBytes: number, parted: boolean): RecordSource {
  async function* pieces(from: number, to: number) {
    for (let at = from; at < to; at += pieceBytes)
      yield await Promise.resolve(bytes.slice(at, Math.min(to, at + pieceBytes)));
  }
  const source = { name, size: bytes.length, stream: () => pieces(0, bytes.length) };
  return parted ? { ...source, part: pieces } : source;
}
