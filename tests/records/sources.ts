import type { FileAccount, ReadReport, SetAsideRow } from '../../shared/record-set.ts';
import type { TableName } from '../../shared/record-tables.ts';
import type { Engine } from '../../lib/engine/engine.ts';
import { identifier, sql } from '../../lib/engine/statement.ts';
import { setAsideRows, type RecordSource } from '../../lib/records/index.ts';

/** A file in memory, handed out in pieces of the given size. */
export function source(name: string, content: string | Uint8Array, pieceBytes = 64 * 1024): RecordSource {
  const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
  return {
    name,
    size: bytes.length,
    async *stream() {
      for (let at = 0; at < bytes.length; at += pieceBytes) {
        yield await Promise.resolve(bytes.slice(at, at + pieceBytes));
      }
    },
  };
}

export function accountOf(report: ReadReport, name: string): FileAccount {
  const account = report.files.find((file) => file.name === name);
  if (!account) throw new Error(`no account of ${name}`);
  return account;
}

/** The counts of a file: read, kept, set aside. */
export const counts = ({ read, kept, setAside }: FileAccount) => [read, kept, setAside];

export const asideOf = (engine: Engine): Promise<SetAsideRow[]> => setAsideRows(engine, 0, 1_000_000);

/** Every kept row of a table as one text, null where a column is NULL, in the order of files and lines. */
export async function keptRows(engine: Engine, table: TableName): Promise<Record<string, string | number | null>[]> {
  const answer = await engine.query(sql`
    select columns(*)::varchar from ${identifier(table)} order by file_id, line`);
  return Array.from({ length: answer.rows }, (_, row) =>
    Object.fromEntries(Object.entries(answer.columns).map(([name, column]) => [name, column[row] ?? null])),
  );
}
