import type { FileAccount } from '../../shared/record-set.ts';
import { recordTables, tableNames, type RecordColumn, type TableName } from '../../shared/record-tables.ts';
import { textColumn, type AppendColumn, type Engine } from '../engine/engine.ts';
import { identifier, joinSql, sql, type Identifier, type Statement } from '../engine/statement.ts';
import { absentColumn } from './cell-column-of.ts';
import { isOwnId } from './identified-tables.ts';
import type { BatchColumns } from './row-batch.ts';

const sqlTypes = {
  text: sql`varchar`,
  choice: sql`varchar`,
  list: sql`varchar`,
  date: sql`date`,
  number: sql`double`,
  integer: sql`integer`,
} as const;

const setAsideColumns = sql`"row" bigint, "column" varchar, value varchar, reason varchar, accepted varchar, original varchar`;
const fileColumns = sql`file_id integer, name varchar, "table" varchar, read bigint, kept bigint, set_aside bigint,
  refused varchar, fingerprint varchar`;

/** Where the rows of a table lie once they are published; the table's own name is a view of them. */
const keptRows = (table: TableName): Identifier => identifier(`${table}_kept`);

const declaration = (table: TableName, column: RecordColumn): Statement => {
  const declared = sql`${identifier(column.name)} ${sqlTypes[column.kind]}`;
  // Texts that are all different take longest to pack, and come out half as large at best.
  return isOwnId(table, column) ? sql`${declared} using compression uncompressed` : declared;
};

let readings = 0;

/** Tables in the making, beside those of the record set that stands until they take its place. */
export class Staging {
  /** Apart from those of a reading that was given up a moment ago and is still clearing away. */
  readonly #prefix = `reading_${++readings}_`;

  /** Columns that the tables in the making have so far, in their order there. */
  readonly #present: Record<TableName, RecordColumn[]> = {
    units: [],
    readings: [],
    services: [],
    inspections: [],
    failures: [],
  };

  constructor(private readonly engine: Engine) {}

  get appendsBeside(): boolean {
    return this.engine.appendsBeside;
  }

  /** The table in the making that will become `name`. */
  table(name: TableName | 'set_aside' | 'files' | 'suspects' | 'twice'): Identifier {
    return identifier(this.#name(name));
  }

  /** Columns of the contract that a table in the making has so far. */
  columns(table: TableName): string[] {
    return this.#present[table].map(({ name }) => name);
  }

  async prepare(): Promise<void> {
    for (const table of tableNames) {
      await this.engine.run(sql`create or replace table ${this.table(table)} (file_id integer, line bigint)`);
    }
    await this.engine.run(
      sql`create or replace table ${this.table('set_aside')} (file_id integer, ${setAsideColumns})`,
    );
    await this.engine.run(
      sql`create or replace table ${this.table('suspects')} (file_id integer, line bigint, original varchar)`,
    );
    await this.engine.run(
      sql`create or replace table ${identifier(this.#name('repeated'))} ("table" varchar, rule varchar, id varchar, kept_id varchar)`,
    );
    await this.engine.run(sql`create or replace table ${this.table('files')} (${fileColumns})`);
  }

  /** Makes room for columns that no file before had. A column that none has costs nothing. */
  async widen(table: TableName, columns: readonly RecordColumn[]): Promise<void> {
    const present = this.#present[table];
    const missing = columns.filter((column) => !present.includes(column));
    if (missing.length === 0) return;
    const declared = missing.map((column) => declaration(table, column));
    // A table without columns has no rows: made anew, it costs one statement for all of them.
    if (present.length === 0)
      await this.engine.run(
        sql`create or replace table ${this.table(table)} (file_id integer, line bigint, ${joinSql(declared, ', ')})`,
      );
    else
      for (const column of declared) await this.engine.run(sql`alter table ${this.table(table)} add column ${column}`);
    present.push(...missing);
  }

  /** Whether any file read so far has a column. */
  has(table: TableName, name: string): boolean {
    return this.#present[table].some((column) => column.name === name);
  }

  /** Appends rows of a file that has these columns, and maybe not all that other files have. */
  appendRows(table: TableName, { file_id, line, ...columns }: BatchColumns): Promise<number> {
    const cells = this.#present[table].map((column): [string, AppendColumn] => [
      column.name,
      columns[column.name] ?? absentColumn(column, line.length),
    ]);
    return this.engine.append(this.#name(table), { file_id, line, ...Object.fromEntries(cells) });
  }

  append(
    name: 'set_aside' | 'suspects' | 'twice' | 'repeated',
    columns: Record<string, AppendColumn>,
  ): Promise<number> {
    return this.engine.append(this.#name(name), columns);
  }

  /** Takes out everything that came from a file. */
  async forget(table: TableName, fileId: number): Promise<void> {
    for (const name of [table, 'set_aside', 'suspects'] as const) {
      await this.engine.run(sql`delete from ${this.table(name)} where file_id = ${fileId}`);
    }
  }

  /** Puts everything in the place of the record set that stood, all at once. */
  async publish(files: readonly FileAccount[], signal?: AbortSignal): Promise<void> {
    await this.engine.append(this.#name('files'), {
      file_id: Float64Array.from(files, (_, fileId) => fileId),
      name: files.map(({ name }) => name),
      table: files.map(({ table }) => table),
      read: Float64Array.from(files, ({ read }) => read),
      kept: Float64Array.from(files, ({ kept }) => kept),
      set_aside: Float64Array.from(files, ({ setAside }) => setAside),
      refused: files.map(({ refused }) => refused),
      fingerprint: files.map(({ fingerprint }) => fingerprint),
    });
    const statements = [
      ...(await this.#leftovers()),
      sql`create or replace table set_aside as
        select file_id, name as file, "row", "column", value, reason, accepted, original
        from ${this.table('set_aside')} join ${this.table('files')} using (file_id) order by file_id, "row"`,
      sql`create or replace table duplicate_ids as select * from ${identifier(this.#name('repeated'))}`,
      sql`drop table if exists files`,
      sql`alter table ${this.table('files')} rename to files`,
      ...tableNames.flatMap((table) => [
        sql`drop table if exists ${keptRows(table)}`,
        sql`alter table ${this.table(table)} rename to ${keptRows(table)}`,
        sql`create or replace view ${identifier(table)} as select ${this.#contractColumns(table)}, file_id, line
          from ${keptRows(table)}`,
      ]),
    ];
    await this.engine.runTogether(statements, signal);
  }

  /** Clears away what was not published. */
  async drop(): Promise<void> {
    for (const name of [...tableNames, 'set_aside', 'suspects', 'twice', 'repeated', 'files'] as const) {
      await this.engine.run(sql`drop table if exists ${identifier(this.#name(name))}`);
    }
  }

  /** The columns of the record contract in its order, NULL where no file has them. */
  #contractColumns(table: TableName): Statement {
    const columns = recordTables[table].map((column) => {
      const name = identifier(column.name);
      return this.#present[table].includes(column) ? sql`${name}` : sql`null::${sqlTypes[column.kind]} as ${name}`;
    });
    return joinSql(columns, ', ');
  }

  /** A view takes no table's place, such as one that a test or another program has put there. */
  async #leftovers(): Promise<Statement[]> {
    const found = await this.engine.query(sql`select table_name as name from duckdb_tables() where not internal`);
    const names: readonly string[] = tableNames;
    return textColumn(found, 'name').flatMap((name) =>
      name !== null && names.includes(name) ? [sql`drop table ${identifier(name)}`] : [],
    );
  }

  #name(name: string): string {
    return `${this.#prefix}${name}`;
  }
}
