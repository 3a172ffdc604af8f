export { csvCell, csvText } from './csv-writing.ts';
export { readRecords } from './read-records.ts';
export type { RecordSource } from './record-source.ts';
export { setAsideCsv, setAsideRows } from './set-aside-csv.ts';
