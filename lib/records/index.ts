export { csvCell, csvText } from './csv-writing.ts';
export { readRecords } from './read-records.ts';
export { rowsAsWritten, type RowWanted, type RowWritten } from './rows-as-written.ts';
export type { RecordSource } from './record-source.ts';
export { settingsFingerprint, type RebuildSettings } from './settings-fingerprint.ts';
export { setAsideCsv, setAsideRows } from './set-aside-csv.ts';
export { lookAtSource } from './source-look.ts';
