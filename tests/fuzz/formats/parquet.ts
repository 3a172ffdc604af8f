import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DuckDBInstance, type DuckDBConnection } from '@duckdb/node-api';
import { pick } from '../pick.ts';
import type { Writer } from './writer.ts';

const folder = mkdtempSync(join(tmpdir(), 'hubcause-fuzz-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));

let connected: Promise<DuckDBConnection> | null = null;
const connection = (): Promise<DuckDBConnection> =>
  (connected ??= DuckDBInstance.create(':memory:', { threads: '1' }).then((instance) => instance.connect()));

const quotedName = (name: string): string => `"${name.replaceAll('"', '""')}"`;

/** Headers that the writing engine, which takes no name twice whatever its case, tells apart. */
function namesFor(headers: readonly string[]): string[] {
  const seen = new Set<string>();
  return headers.map((header) => {
    let name = header.replaceAll('\0', '') || 'blank';
    while (seen.has(name.toLowerCase())) name += ' again';
    seen.add(name.toLowerCase());
    return name;
  });
}

/** Halves of pairs and bytes of zero are what the writing engine cannot take. */
const blankAsNull = (cell = ''): string | null =>
  cell === '' ? null : Buffer.from(cell.replaceAll('\0', '')).toString();

/** Parquet written by DuckDB, which shares no code with the reader; days and numbers as such where all are. */
export const parquet: Writer = {
  format: 'parquet',
  weight: 1.5,
  counts: 'all',
  async write({ headers, rows }, random) {
    const paths = { from: join(folder, 'rows.json'), to: join(folder, 'rows.parquet') };
    const names = namesFor(headers);
    // By place, since JSON here knows no two names that differ by case.
    const objects = rows.map((row) =>
      JSON.stringify(Object.fromEntries(names.map((_, at) => [`c${at}`, blankAsNull(row[at])]))),
    );
    writeFileSync(paths.from, objects.join('\n'));
    const typed = random.chance(0.5);
    const columns = names.map((name, at) => {
      const column = `c${at}`;
      const filled = rows.map((row) => row[at] ?? '').filter((cell) => cell !== '');
      const type =
        !typed || filled.length === 0
          ? 'varchar'
          : filled.every((cell) => /^20\d\d-(0\d|1[0-2])-([01]\d|2[0-8])$/.test(cell))
            ? pick(random, ['date', 'timestamp'])
            : filled.every((cell) => /^[1-9]\d{0,6}$/.test(cell))
              ? pick(random, ['integer', 'bigint', 'double'])
              : 'varchar';
      return `${column}::${type} as ${quotedName(name)}`;
    });
    const declared = names.map((_, at) => `c${at}: 'VARCHAR'`).join(', ');
    const codec = pick(random, ['uncompressed', 'snappy', 'gzip', 'zstd', 'lz4_raw']);
    const db = await connection();
    await db.run(
      `copy (select ${columns.join(', ')} from read_json('${paths.from}', format = 'newline_delimited', maximum_object_size = 67108864, columns = {${declared}})) to '${paths.to}' (format parquet, compression ${codec})`,
    );
    return { ending: '.parquet', bytes: new Uint8Array(readFileSync(paths.to)), text: null, exact: false };
  },
};
