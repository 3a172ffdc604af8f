import type { FileAccount } from '../../shared/record-set.ts';
import { recordTables, tableNames, type TableName } from '../../shared/record-tables.ts';
import type { AppendColumn, Engine } from '../engine/engine.ts';
import { identifier, joinSql, sql, type Identifier } from '../engine/statement.ts';

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

let readings = 0;

/** Tables in the making, beside those of the record set that stands until they take its place. */
export class Staging {
  /** Apart from those of a reading that was given up a moment ago and is still clearing away. */
  readonly #prefix = `reading_${++readings}_`;

  constructor(private readonly engine: Engine) {}

  /** The table in the making that will become `name`. */
  table(name: TableName | 'set_aside' | 'files' | 'suspects' | 'twice'): Identifier {
    return identifier(this.#name(name));
  }

  async prepare(): Promise<void> {
    for (const table of tableNames) {
      const columns = recordTables[table].map(({ name, kind }) => sql`${identifier(name)} ${sqlTypes[kind]}`);
      const all = joinSql([...columns, sql`file_id integer`, sql`line bigint`], ', ');
      await this.engine.run(sql`create or replace table ${this.table(table)} (${all})`);
    }
    await this.engine.run(
      sql`create or replace table ${this.table('set_aside')} (file_id integer, ${setAsideColumns})`,
    );
    await this.engine.run(
      sql`create or replace table ${this.table('suspects')} (file_id integer, line bigint, original varchar)`,
    );
    await this.engine.run(sql`create or replace table ${this.table('files')} (${fileColumns})`);
  }

  append(name: TableName | 'set_aside' | 'suspects', columns: Record<string, AppendColumn>): Promise<number> {
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
    const replaced = [...tableNames, 'files'] as const;
    const statements = [
      sql`create or replace table set_aside as
        select name as file, "row", "column", value, reason, accepted, original
        from ${this.table('set_aside')} join ${this.table('files')} using (file_id) order by file_id, "row"`,
      ...replaced.flatMap((name) => [
        sql`drop table if exists ${identifier(name)}`,
        sql`alter table ${this.table(name)} rename to ${identifier(name)}`,
      ]),
    ];
    await this.engine.runTogether(statements, signal);
  }

  /** Clears away what was not published. */
  async drop(): Promise<void> {
    for (const name of [...tableNames, 'set_aside', 'suspects', 'twice', 'files'] as const) {
      await this.engine.run(sql`drop table if exists ${this.table(name)}`);
    }
  }

  #name(name: string): string {
    return `${this.#prefix}${name}`;
  }
}
