import { recordTables, tableNames, type TableName } from '../../shared/record-tables.ts';
import type { ReadReport } from '../../shared/record-set.ts';
import { defaultChoices, type Choices } from '../../shared/choices.ts';
import { procedureSchema, type Procedure } from '../../shared/procedure.ts';
import type { Engine, ResultColumn } from '../../lib/engine/engine.ts';
import { livesFromRecords, type LivesSource } from '../../lib/lives/index.ts';
import defaultProcedure from '../../data/default-procedure.json' with { type: 'json' };

export type Row = Record<string, string | number | null>;
export type Fleet = Partial<Record<TableName, readonly Row[]>>;

export const commonPractice: Procedure = procedureSchema.parse(defaultProcedure);

const types = {
  text: 'varchar',
  choice: 'varchar',
  list: 'varchar',
  date: 'varchar',
  number: 'double',
  integer: 'double',
} as const;

/** Puts rows into the engine as the reader would leave them, without going through files. */
export async function loadFleet(engine: Engine, fleet: Fleet): Promise<void> {
  for (const table of tableNames) {
    const columns = [
      ...recordTables[table],
      { name: 'file_id', kind: 'number' as const },
      { name: 'line', kind: 'number' as const },
    ];
    const rows = (fleet[table] ?? []).map((row, index): Row => ({ file_id: 1, line: index + 2, ...row }));
    for (const row of rows)
      for (const name of Object.keys(row))
        if (!columns.some((column) => column.name === name)) throw new Error(`no column ${name} in ${table}`);
    const data = Object.fromEntries(
      columns.map(({ name, kind }): [string, ResultColumn] => {
        const cells = rows.map((row) => row[name] ?? null);
        return [
          name,
          types[kind] === 'double'
            ? Float64Array.from(cells, (cell) => (cell === null ? NaN : Number(cell)))
            : cells.map((cell) => (cell === null ? null : String(cell))),
        ];
      }),
    );
    const declared = columns.map(({ name, kind }) => `"${name}" ${types[kind]}`).join(', ');
    await engine.run({ text: `create or replace table text_${table} (${declared})`, values: [] });
    await engine.append(`text_${table}`, data);
    const dates = columns
      .filter(({ kind }) => kind === 'date')
      .map(({ name }) => `cast("${name}" as date) as "${name}"`);
    const integers = columns
      .filter(({ kind }) => kind === 'integer')
      .map(({ name }) => `cast("${name}" as integer) as "${name}"`);
    const replaced = [...dates, ...integers];
    const replace = replaced.length > 0 ? `replace (${replaced.join(', ')})` : '';
    await engine.run({
      text: `create or replace table ${table} as select * ${replace} from text_${table}`,
      values: [],
    });
  }
}

export async function rebuild(
  engine: Engine,
  fleet: Fleet,
  window: { from?: string; to?: string } = {},
  procedures: readonly Procedure[] = [commonPractice],
  choices: Choices = defaultChoices,
  files: ReadReport['files'] = [],
): Promise<LivesSource> {
  await loadFleet(engine, fleet);
  const report: ReadReport = {
    name: 'test',
    invented: true,
    files,
    observedFrom: window.from ?? null,
    observedTo: window.to ?? null,
    fingerprint: 'test',
    procedures: [],
    choices,
    messages: [],
  };
  return livesFromRecords(engine, report, procedures);
}

/** Rows of a query as objects, for reading in tests. */
export async function rowsOf(engine: Engine, text: string): Promise<Row[]> {
  const { rows, columns } = await engine.query({ text, values: [] });
  return Array.from({ length: rows }, (_, index) =>
    Object.fromEntries(
      Object.entries(columns).map(([name, column]): [string, string | number | null] => {
        const cell = column[index] ?? null;
        return [name, typeof cell === 'number' && Number.isNaN(cell) ? null : cell];
      }),
    ),
  );
}
