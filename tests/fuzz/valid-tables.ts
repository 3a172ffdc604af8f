import { parse } from 'csv-parse/sync';
import { generateDemoFleet } from '../../data/demo/generate-demo-fleet.ts';
import { demoFiles } from '../../data/demo/demo-files.ts';
import type { ColumnMap } from '../../shared/column-map.ts';
import { tableOfFile, type TableName } from '../../shared/record-tables.ts';
import { changedMap, proposeMap, UnitRoles } from '../../lib/records/index.ts';
import { fiveShops, numberedByOrder } from '../records/five-shops.ts';

/** A table as texts, before it is written as a file of any kind. */
export interface TextTable {
  /** The file's name without its ending. */
  readonly name: string;
  /** Null where only a column map says what the rows are. */
  readonly table: TableName | null;
  readonly headers: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** Small and valid record sets: the contract's tables, and the same as shops' own programs would have them. */
export interface ValidTables {
  readonly canonical: readonly TextTable[];
  readonly foreign: readonly { readonly table: TextTable; readonly map: ColumnMap }[];
}

const textTable = (name: string, text: string, table: TableName | null): TextTable => {
  const [headers = [], ...rows] = parse(text, {
    delimiter: [',', ';', '\t', '|'].find((mark) => text.slice(0, text.indexOf('\n')).includes(mark)) ?? ',',
    relax_column_count: true,
  });
  return { name: name.replace(/\.\w+$/, ''), table, headers, rows };
};

export function validTables(): ValidTables {
  const fleet = numberedByOrder(generateDemoFleet({ units: 4, seed: 3 }));
  const canonical = demoFiles(fleet).flatMap(({ name, text }) => {
    const table = tableOfFile(name);
    return table === null || text.split('\n').length < 4 ? [] : [textTable(name, text, table)];
  });
  const roles = new UnitRoles();
  for (const { unit_id, axle_roles } of fleet.units) roles.add(unit_id, axle_roles);
  const foreign = fiveShops(fleet).flatMap(({ name, text }) => {
    const table = textTable(name, text, null);
    if (table.rows.length < 2) return [];
    const { map, asks } = proposeMap(name, table.headers, table.rows, roles);
    const settled = asks.reduce((now, { options }) => changedMap(now, options[0]?.set ?? []), map);
    return [{ table, map: settled }];
  });
  return { canonical, foreign };
}
