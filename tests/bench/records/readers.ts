import { createReadStream } from 'node:fs';
import { DuckDBInstance } from '@duckdb/node-api';
import { parse } from 'csv-parse';
import { recordSources } from '../../../lib/cli/record-sources.ts';
import { openNodeEngine } from '../../../lib/engine/node.ts';
import { readRecords } from '../../../lib/records/index.ts';
import { historyColumns } from './service-history.ts';

/** What a reader made of the rows of a file: how many it kept, and of how many more it can say that it did not. */
export interface Account {
  readonly kept: number;
  readonly setAside: number;
}

export type Reader = (path: string) => Promise<Account>;

/** All of our reading: rows cut, typed, checked and loaded, ids compared, what is wrong set aside. */
const ours: Reader = async (path) => {
  const engine = await openNodeEngine({ threads: 1 });
  const report = await readRecords(engine, recordSources([path]));
  await engine.close();
  return { kept: report.files[0]?.kept ?? 0, setAside: report.files[0]?.setAside ?? 0 };
};

/** DuckDB's own reader, given the types and told to keep what it rejects. @param packed whether its table lies packed in memory, as those of our engine do */
const duckdb =
  (packed: boolean): Reader =>
  async (path) => {
    const instance = await DuckDBInstance.create(':memory:', { threads: '1' });
    const connection = await instance.connect();
    if (packed) await connection.run(`attach ':memory:' as packed (compress); use packed`);
    const types = Object.entries(historyColumns).map(([name, type]) => `'${name}': '${type}'`);
    // Told all that it would otherwise guess.
    const dialect = `auto_detect = false, header = true, delim = ',', quote = '"', escape = '"'`;
    await connection.run(
      `create table services as from read_csv('${path}', ${dialect}, columns = {${types.join(', ')}}, store_rejects = true)`,
    );
    const count = async (from: string): Promise<number> => {
      const [row = []] = (await connection.runAndReadAll(`select count(*)::double from ${from}`)).getRows();
      return Number(row[0]);
    };
    const account = {
      kept: await count('services'),
      setAside: await count('(select distinct line from reject_errors)'),
    };
    connection.closeSync();
    instance.closeSync();
    return account;
  };

/** A streaming library, which cuts the rows into texts: nothing is typed, checked or loaded. */
const library: Reader = async (path) => {
  let kept = 0;
  let setAside = 0;
  const parser = createReadStream(path).pipe(
    parse({
      from_line: 2,
      columns: Object.keys(historyColumns),
      skip_records_with_error: true,
      on_skip: () => {
        setAside++;
        return undefined;
      },
    }),
  );
  for await (const row of parser) if (row) kept++;
  return { kept, setAside };
};

export const readers: Readonly<Record<string, Reader>> = {
  'DuckDB read_csv, 1 thread': duckdb(false),
  'our reader, to the table': ours,
  // Packing alone takes as long as reading: without it nobody could tell what a faster reader would gain.
  'DuckDB, to a packed table': duckdb(true),
  'csv-parse, cells only': library,
};
