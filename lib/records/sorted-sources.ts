import { tableNames, tableOfFile, type TableName } from '../../shared/record-tables.ts';
import { baseName, type RecordSource } from './record-source.ts';
import { isRecordSetFile } from './record-set-file.ts';

/** The files of a record set by what they are for. */
export interface SortedSources {
  readonly tables: readonly { readonly source: RecordSource; readonly table: TableName }[];
  readonly recordSets: readonly RecordSource[];
  /** Files of records by their ending, whose name says no table. */
  readonly unnamed: readonly RecordSource[];
  /** Whatever else lies in the folder. */
  readonly others: readonly RecordSource[];
}

/** What the names of files of records end in. */
export const recordEnding =
  /\.(csv|tsv|tab|txt|arrow|feather|parquet|pq|xls[xmb]?|ods|json|jsonl|ndjson)(\.(gz|zip))?$/i;

/** Why a file goes unread whose name says no table. */
export const noTable = `goes by no table: its name has to begin with ${tableNames.slice(0, -1).join(', ')} or ${tableNames.at(-1)}`;

/** The table that a source goes by: by its own name, or else by that of the archive it was packed in. */
const tableOfSource = ({ name, within }: RecordSource): TableName | null =>
  tableOfFile(name) ?? (within === undefined ? null : tableOfFile(within));

/** By name, so that the same files give the same record set in whatever order they were picked. */
export function sortedSources(sources: readonly RecordSource[]): SortedSources {
  const ordered = [...sources].sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
  const recordSets = ordered.filter(isRecordSetFile);
  const rest = ordered.filter((source) => !isRecordSetFile(source));
  const tables = rest.flatMap((source) => {
    const table = tableOfSource(source);
    return table ? [{ source, table }] : [];
  });
  const left = rest.filter((source) => tableOfSource(source) === null);
  const isRecords = ({ name, sheet }: RecordSource) =>
    sheet !== undefined || (recordEnding.test(name) && !baseName(name).startsWith('.'));
  return {
    tables,
    recordSets,
    unnamed: left.filter(isRecords),
    others: left.filter((source) => !isRecords(source)),
  };
}

/** The folder that all files come from, where they come from one. */
export function folderOf(sources: readonly RecordSource[]): string | null {
  const folders = new Set(sources.map(({ name }) => /^(.*)[\\/][^\\/]*$/.exec(name)?.[1] ?? ''));
  const [only = ''] = folders;
  return folders.size === 1 && only !== '' ? baseName(only) : null;
}
