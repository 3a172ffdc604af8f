import type { FileAccount, ReadReport, SetAsideRow } from '../../../shared/record-set.ts';
import { tableNames, type TableName } from '../../../shared/record-tables.ts';
import type { Engine } from '../../../lib/engine/engine.ts';
import { numberColumn, textColumn } from '../../../lib/engine/engine.ts';
import { identifier, joinSql, sql } from '../../../lib/engine/statement.ts';
import { readRecords, setAsideRows } from '../../../lib/records/index.ts';
import type { FuzzCase } from '../fuzz-case.ts';

export interface KeptRow {
  readonly file: string;
  readonly table: TableName;
  readonly line: number;
}

/** What came of a case. */
export interface CaseRead {
  readonly fuzz: FuzzCase;
  readonly report: ReadReport;
  readonly kept: readonly KeptRow[];
  readonly aside: readonly SetAsideRow[];
  /** The accounts of the spoilt file, and of what lay inside it. */
  readonly own: readonly FileAccount[];
}

export async function readCase(engine: Engine, fuzz: FuzzCase): Promise<CaseRead> {
  const report = await readRecords(engine, fuzz.sources, { maps: fuzz.maps });
  const all = joinSql(
    tableNames.map(
      (table) => sql`select name, ${table} as record_table, line from ${identifier(table)} join files using (file_id)`,
    ),
    ' union all ',
  );
  const rows = await engine.query(all);
  const [names, lines, tables] = [
    textColumn(rows, 'name'),
    numberColumn(rows, 'line'),
    textColumn(rows, 'record_table'),
  ];
  const kept = names.map((file, at) => ({ file: file ?? '', table: tables[at] as TableName, line: lines[at]! }));
  const aside = await setAsideRows(engine, 0, 10_000_000);
  const { name } = fuzz.spoilt;
  const own = report.files.filter((file) => file.name === name || file.name.startsWith(`${name}/`));
  return { fuzz, report, kept, aside, own };
}
