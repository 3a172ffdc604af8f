export { csvCell, csvLine, csvText } from './csv-writing.ts';
export { readRecords, type ReadOptions } from './read-records.ts';
export type { RecordSource } from './record-source.ts';
export { setAsideCsv, setAsideRows } from './set-aside-csv.ts';
