import { recordTables, type RecordColumn, type TableName } from '../../shared/record-tables.ts';

/** Tables whose rows have an id of their own, in their first column. */
export const identifiedTables: readonly TableName[] = ['units', 'services', 'inspections', 'failures'];

export const isOwnId = (table: TableName, column: RecordColumn): boolean =>
  identifiedTables.includes(table) && column === recordTables[table][0];
