import { sha256 } from 'hash-wasm';
import type { FileAccount, Progress, ReadReport, RecordSetFile } from '../../shared/record-set.ts';
import { tableNames, tableOfFile, type TableName } from '../../shared/record-tables.ts';
import type { Engine } from '../engine/engine.ts';
import { identifiedTables, setAsideDuplicates } from './duplicates.ts';
import { IdentityIndex } from './identity-index.ts';
import { readFile, type ReadingJob } from './read-file.ts';
import { baseName, type RecordSource } from './record-source.ts';
import { isRecordSetFile, readRecordSetFile } from './record-set-file.ts';
import { Staging } from './staging.ts';

export interface ReadOptions {
  readonly signal?: AbortSignal;
  readonly onProgress?: (progress: Progress) => void;
}

interface Sorted {
  readonly tables: readonly { readonly source: RecordSource; readonly table: TableName }[];
  readonly recordSets: readonly RecordSource[];
  readonly others: readonly RecordSource[];
}

/** By name, so that the same files give the same record set in whatever order they were picked. */
function sorted(sources: readonly RecordSource[]): Sorted {
  const ordered = [...sources].sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
  const recordSets = ordered.filter(isRecordSetFile);
  const rest = ordered.filter((source) => !isRecordSetFile(source));
  return {
    recordSets,
    tables: rest.flatMap((source) => {
      const table = tableOfFile(source.name);
      return table ? [{ source, table }] : [];
    }),
    others: rest.filter(({ name }) => tableOfFile(name) === null),
  };
}

interface Said {
  readonly recordSet: RecordSetFile;
  readonly messages: readonly string[];
  readonly fingerprints: readonly string[];
}

/** What the record set says of itself; more than one such file, or a bad one, is said and not used. */
async function saidBy(recordSets: readonly RecordSource[]): Promise<Said> {
  const [first, ...more] = recordSets;
  if (!first) return { recordSet: {}, messages: [], fingerprints: [] };
  if (more.length > 0)
    return {
      recordSet: {},
      fingerprints: [],
      messages: [
        `${recordSets.map(({ name }) => name).join(' and ')}: only one record-set.json can hold; none is used`,
      ],
    };
  const said = await readRecordSetFile(first);
  if (typeof said === 'string')
    return { recordSet: {}, fingerprints: [], messages: [`${first.name}: ${said}; it is not used`] };
  return { recordSet: said, messages: [], fingerprints: [await sha256(JSON.stringify(said))] };
}

async function readAll(job: ReadingJob, { tables }: Sorted): Promise<FileAccount[]> {
  const accounts: FileAccount[] = [];
  for (const [fileId, { source, table }] of tables.entries()) accounts.push(await readFile(source, table, fileId, job));
  return accounts;
}

/** The accounts once rows whose id stood before have been set aside. */
async function withoutDuplicates(
  engine: Engine,
  job: ReadingJob,
  accounts: readonly FileAccount[],
): Promise<FileAccount[]> {
  job.onProgress({ doing: 'Looking for rows that stand twice', share: null });
  const names = accounts.map(({ name }) => baseName(name));
  const counts = new Map<number, number>();
  for (const table of identifiedTables)
    for (const [fileId, count] of await setAsideDuplicates(engine, job.staging, table, names, job.signal))
      counts.set(fileId, count);
  return accounts.map((account, fileId) => {
    const twice = counts.get(fileId) ?? 0;
    return { ...account, kept: account.kept - twice, setAside: account.setAside + twice };
  });
}

const passedOver = (others: readonly RecordSource[]): string[] =>
  others.length === 0
    ? []
    : [
        `Passed over, since its name does not begin with one of ${tableNames.join(', ')}: ${others.map(({ name }) => name).join(', ')}`,
      ];

/**
 * Reads files into the engine's record tables: `units`, `readings`, `services`, `inspections`,
 * `failures` (the columns of `recordTables`, then `file_id`, `line`), `files` and `set_aside`. For
 * every file read = kept + set aside. What stood in the tables before is replaced at the very end,
 * all at once; a reading that fails or is aborted leaves it as it was.
 * @throws the signal's reason where aborted, and what the engine throws
 */
export async function readRecords(
  engine: Engine,
  sources: readonly RecordSource[],
  { signal, onProgress = () => undefined }: ReadOptions = {},
): Promise<ReadReport> {
  const files = sorted(sources);
  const { recordSet, messages, fingerprints } = await saidBy(files.recordSets);
  const staging = new Staging(engine);
  const job: ReadingJob = {
    staging,
    ids: new Map(identifiedTables.concat('readings').map((table) => [table, new IdentityIndex()])),
    totalBytes: files.tables.reduce((sum, { source }) => sum + source.size, 0),
    ...{ signal, onProgress, doneBytes: 0 },
  };
  try {
    await staging.prepare();
    const accounts = await withoutDuplicates(engine, job, await readAll(job, files));
    await staging.publish(accounts, signal);
    const all = [...fingerprints, ...accounts.map(({ fingerprint }) => fingerprint)].sort();
    return {
      name: recordSet.name ?? folderOf(sources) ?? 'Your records',
      invented: recordSet.invented ?? false,
      files: accounts,
      observedFrom: recordSet.observedFrom ?? null,
      observedTo: recordSet.observedTo ?? null,
      procedures: recordSet.procedures ?? [],
      fingerprint: await sha256(all.join('\n')),
      messages: [...messages, ...passedOver(files.others)],
    };
  } finally {
    await staging.drop();
  }
}

/** The folder that all files come from, where they come from one. */
function folderOf(sources: readonly RecordSource[]): string | null {
  const folders = new Set(sources.map(({ name }) => /^(.*)[\\/][^\\/]*$/.exec(name)?.[1] ?? ''));
  const [only = ''] = folders;
  return folders.size === 1 && only !== '' ? baseName(only) : null;
}
