import { readFile, writeFile } from 'node:fs/promises';
import { extname } from 'node:path';
import { tableFromIPC } from 'apache-arrow';
import { decodeArrow } from './arrow-decode.ts';
import { arrowFile } from './arrow-file.ts';
import { quotedText } from './literal-text.ts';
import type { NativeEngine } from './native-engine.ts';
import { identifier, joinSql, sql, type Statement } from './statement.ts';

/** What `csvCell` puts an apostrophe before; a text written by it begins with one more. */
const runnable = String.raw`^'*[=+\-@\t\r]`;
const written = String.raw`^'+[=+\-@\t\r]`;

/** Every column as it was before it was written so. */
const asGiven = sql`if(regexp_matches(columns('(.*)'), ${written}), substr(columns('(.*)'), 2), columns('(.*)')) as "\\1"`;

/** Every column as text that no spreadsheet would run. */
const harmless = (query: Statement): Statement => sql`
  select case when typeof(columns('(.*)')) = 'VARCHAR' and regexp_matches(columns('(.*)')::varchar, ${runnable})
    then '''' || columns('(.*)')::varchar else columns('(.*)')::varchar end as "\\1" from (${query})`;

/**
 * Makes a table of a `.parquet`, `.csv`, `.tsv`, `.arrow` or `.feather` file, replacing one of that
 * name. Parquet keeps its types; CSV comes in as text alone, the apostrophe that keeps a text from
 * being run by a spreadsheet taken off, and is refused whole if any line is broken; Arrow comes in as numbers and text, dates as ISO text.
 */
export async function openTableFile(
  engine: NativeEngine,
  path: string,
  table: string,
  signal?: AbortSignal,
): Promise<void> {
  const name = identifier(table);
  const ending = extname(path).toLowerCase();
  if (ending === '.parquet') {
    await engine.run(sql`create or replace table ${name} as select * from read_parquet(${path})`, signal);
  } else if (ending === '.csv' || ending === '.tsv') {
    const rows = sql`read_csv(${path}, delim = ${ending === '.csv' ? ',' : '\t'}, quote = '"', escape = '"',
      header = true, all_varchar = true, strict_mode = true, null_padding = false)`;
    await engine
      .run(sql`create or replace table ${name} as select ${asGiven} from ${rows}`, signal)
      .catch((error: unknown) => {
        signal?.throwIfAborted();
        throw new Error(`${path} cannot be read whole: ${String(error)}`, { cause: error });
      });
  } else if (ending === '.arrow' || ending === '.feather') {
    const { columns } = decodeArrow(tableFromIPC(await readFile(path)), { datesAsText: true });
    const declared = Object.entries(columns).map(([column, values]) =>
      values instanceof Float64Array ? sql`${identifier(column)} double` : sql`${identifier(column)} varchar`,
    );
    await engine.run(sql`create or replace table ${name} (${joinSql(declared, ', ')})`, signal);
    await engine.append(table, columns);
  } else throw unknownEnding(path);
}

/**
 * Writes an answer to a `.parquet`, `.csv` or `.arrow` file. Arrow takes numbers and text only, so
 * dates have to be cast in the query; the other two take every type. In CSV no text is one that a
 * spreadsheet would run.
 */
export async function saveTableFile(
  engine: NativeEngine,
  query: Statement,
  path: string,
  signal?: AbortSignal,
): Promise<void> {
  const ending = extname(path).toLowerCase();
  if (ending === '.parquet') await engine.run(copyTo(query, path, 'format parquet, compression zstd'), signal);
  else if (ending === '.csv') await engine.run(copyTo(harmless(query), path, 'format csv, header true'), signal);
  else if (ending === '.arrow') await writeFile(path, arrowFile(await engine.query(query, signal)));
  else throw unknownEnding(path);
}

/** The target of a copy is the one value that DuckDB takes as no parameter beside others. */
const copyTo = ({ text, values }: Statement, path: string, form: string): Statement => ({
  text: `copy (${text}) to ${quotedText(path)} (${form})`,
  values,
});

const unknownEnding = (path: string): Error =>
  new Error(`cannot tell what ${path} holds; its name has to end in .parquet, .csv or .arrow`);
