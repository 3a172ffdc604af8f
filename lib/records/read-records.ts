import { sha256 } from 'hash-wasm';
import { defaultChoices } from '../../shared/choices.ts';
import type { FileAccount, Progress, ReadReport } from '../../shared/record-set.ts';
import type { SourceChoice } from '../../shared/source-choice.ts';
import type { Engine } from '../engine/engine.ts';
import { identifiedTables, setAsideDuplicates } from './duplicates.ts';
import { IdentityIndex } from './identity-index.ts';
import { readFile, refusedFile, type ReadingJob } from './read-file.ts';
import { readRecordSetFile, type OwnWords } from './record-set-file.ts';
import type { RecordSource } from './record-source.ts';
import { folderOf, noTable, sortedSources, type SortedSources } from './sorted-sources.ts';
import { Staging } from './staging.ts';
import { unpackedSources, type UnpackedSources } from './unpacked-sources.ts';

export interface ReadOptions {
  readonly signal?: AbortSignal;
  readonly onProgress?: (progress: Progress) => void;
  /** Which sheet and which row of headers, by the name of a file; found without being told, too. */
  readonly choices?: Readonly<Record<string, SourceChoice>>;
}

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
  { signal, onProgress = () => undefined, choices = {} }: ReadOptions = {},
): Promise<ReadReport> {
  const unpacked = await unpackedSources(sources);
  const sorted = sortedSources(unpacked.sources);
  const own = await readRecordSetFile(sorted.recordSets);
  const staging = new Staging(engine);
  const job: ReadingJob = {
    staging,
    ids: new Map(identifiedTables.map((table) => [table, new IdentityIndex()])),
    totalBytes: sorted.tables.reduce((sum, { source }) => sum + source.size, 0),
    signal,
    onProgress,
    choices,
    notes: [...unpacked.notes],
    doneBytes: 0,
  };
  try {
    await staging.prepare();
    const read = await readTables(job, sorted);
    onProgress({ doing: 'Looking for ids used twice', share: null });
    const tables = await withoutDuplicates(engine, job, read);
    const files = [...tables, ...unread(sorted, own, unpacked)];
    await staging.publish(files, signal);
    return await reportOf(own, files, sorted, folderOf(sources), job.notes);
  } finally {
    await staging.drop();
  }
}

/** One after the other; a file that was read already under another name is not read again. */
async function readTables(job: ReadingJob, { tables }: SortedSources): Promise<FileAccount[]> {
  const accounts: FileAccount[] = [];
  for (const [fileId, { source, table }] of tables.entries()) {
    const account = await readFile(source, table, fileId, job);
    const twin = accounts.find(
      (earlier) => earlier.refused === null && earlier.table === table && earlier.fingerprint === account.fingerprint,
    );
    if (account.refused === null && twin) {
      await job.staging.forget(table, fileId);
      const refused = `is the same as ${twin.name}, byte for byte, and counts once`;
      accounts.push(refusedFile(source.name, table, refused, account.fingerprint));
    } else accounts.push(account);
  }
  return accounts;
}

/** The accounts once rows whose id stood before have been set aside. */
async function withoutDuplicates(
  engine: Engine,
  { staging, signal }: ReadingJob,
  accounts: readonly FileAccount[],
): Promise<FileAccount[]> {
  const names = accounts.map(({ name }) => name);
  const twice = new Map<number, number>();
  for (const table of identifiedTables) {
    const counts = await setAsideDuplicates(engine, staging, table, names, signal);
    for (const [fileId, count] of counts) twice.set(fileId, count);
  }
  return accounts.map((account, fileId) => {
    const count = twice.get(fileId) ?? 0;
    return { ...account, kept: account.kept - count, setAside: account.setAside + count };
  });
}

const unread = ({ unnamed }: SortedSources, { refused }: OwnWords, unpacked: UnpackedSources): FileAccount[] => [
  ...unpacked.refused.map(({ name, why }) => refusedFile(name, null, why)),
  ...unnamed.map(({ name }) => refusedFile(name, null, noTable)),
  ...refused.map(({ name, why }) => refusedFile(name, null, why)),
];

async function reportOf(
  { said, refused }: OwnWords,
  files: readonly FileAccount[],
  { others }: SortedSources,
  folder: string | null,
  notes: readonly string[],
): Promise<ReadReport> {
  const used = files.filter((file) => file.refused === null);
  const passedOver = others.map(({ name }) => name).join(', ');
  return {
    name: said.name ?? folder ?? 'Your records',
    invented: said.invented ?? false,
    files,
    observedFrom: said.observedFrom ?? null,
    observedTo: said.observedTo ?? null,
    procedures: said.procedures ?? [],
    choices: said.choices ?? defaultChoices,
    // What the record set says of itself changes the answers, so it is part of what they stand on.
    fingerprint: await sha256(
      [...used.map((file) => file.fingerprint), await sha256(JSON.stringify(said))].sort().join('\n'),
    ),
    messages: [
      ...refused.map(({ name, why }) => `${name} ${why}`),
      ...notes,
      ...used.filter(({ read }) => read === 0).map(({ name }) => `${name} has headers and no rows`),
      ...(passedOver === '' ? [] : [`Passed over, being no files of records: ${passedOver}`]),
    ],
  };
}
