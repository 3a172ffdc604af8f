import { sha256 } from 'hash-wasm';
import { defaultChoices } from '../../shared/choices.ts';
import type { ColumnMap } from '../../shared/column-map.ts';
import type { FileAccount, Progress, ReadReport } from '../../shared/record-set.ts';
import type { SourceChoice } from '../../shared/source-choice.ts';
import type { Engine } from '../engine/engine.ts';
import { knownMaps } from './column-map/known-maps.ts';
import { mapsAmong, type MapsFound } from './column-map/saved-maps.ts';
import { UnitRoles, unitRolesIn } from './column-map/unit-roles.ts';
import { setAsideDuplicates, type Originals } from './duplicates.ts';
import { identifiedTables } from './identified-tables.ts';
import { IdentityIndex } from './identity-index.ts';
import { listed } from './listed.ts';
import { originalRows } from './original-rows.ts';
import { plannedFiles, type Plan } from './planned-files.ts';
import { feeds, nothingOf, readFile, refusedFile, type ReadingJob } from './read-file.ts';
import { readRecordSetFile, type OwnWords } from './record-set-file.ts';
import type { RecordSource } from './record-source.ts';
import { folderOf, sortedSources, type SortedSources } from './sorted-sources.ts';
import { Staging } from './staging.ts';
import { withoutRepeated } from './without-repeated.ts';
import { unpackedSources, type UnpackedSources } from './unpacked-sources.ts';

export interface ReadOptions {
  readonly signal?: AbortSignal;
  readonly onProgress?: (progress: Progress) => void;
  /** Which sheet and which row of headers, by the name of a file; found without being told, too. */
  readonly choices?: Readonly<Record<string, SourceChoice>>;
  /** Column maps that go before those that lie among the sources or in their `record-set.json`. */
  readonly maps?: readonly ColumnMap[];
  /** Which rows count as said before, in place of what the record set says of itself. */
  readonly duplicates?: ReadReport['choices']['duplicates'];
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
  { signal, onProgress = () => undefined, choices = {}, maps = [], duplicates }: ReadOptions = {},
): Promise<ReadReport> {
  const unpacked = await unpackedSources(sources);
  const saved = await mapsAmong(unpacked.sources);
  const sorted = sortedSources(saved.sources);
  const own = await readRecordSetFile(sorted.recordSets);
  const known = knownMaps(maps, [...saved.maps, ...Object.values(own.said.columnMaps ?? {})]);
  const plan = await plannedFiles(sorted, known, choices, signal);
  const staging = new Staging(engine);
  const job: ReadingJob = {
    staging,
    ids: new Map(identifiedTables.map((table) => [table, new IdentityIndex()])),
    totalBytes: plan.files.reduce((sum, { source }) => sum + source.size, 0),
    signal,
    onProgress,
    choices,
    headers: new Map(),
    notes: [...unpacked.notes],
    roles: new UnitRoles(),
    doneBytes: 0,
  };
  try {
    await staging.prepare();
    const read = await readTables(engine, job, plan);
    onProgress({ doing: 'Looking for rows said twice', share: null });
    const once = await withoutDuplicates(engine, job, plan, read);
    const tables = await withoutRepeated(
      engine,
      job,
      plan.files,
      once,
      duplicates ?? (own.said.choices ?? defaultChoices).duplicates,
    );
    const files = [...tables, ...unread(plan, own, unpacked, saved)];
    await staging.publish(files, signal);
    return await reportOf(
      own,
      files.filter(({ table, read, refused }) => table !== null || read > 0 || refused !== null),
      sorted,
      folderOf(sources),
      job.notes,
    );
  } finally {
    await staging.drop();
  }
}

/**
 * One after the other, units first: places on a vehicle are read by its axles. A file that was read
 * already under another name is not read again.
 */
async function readTables(engine: Engine, job: ReadingJob, { files }: Plan): Promise<FileAccount[]> {
  const accounts: FileAccount[] = [];
  const units = files.filter((file) => feeds(file, 'units'));
  for (const file of [...units, ...files.filter((file) => !units.includes(file))]) {
    if (file.map !== null && file !== units[0]) await knowUnits(engine, job);
    const read = await readFile(file, job);
    // Units went first, so that the numbers before theirs may have no account yet.
    const twin = accounts.find(
      (earlier: FileAccount | undefined) =>
        earlier?.refused === null &&
        read.some(({ table, fingerprint }) => earlier.table === table && earlier.fingerprint === fingerprint),
    );
    for (const [index, fileId] of file.fileIds.entries()) {
      const account = read[index] ?? nothingOf(file.source.name);
      accounts[fileId] = twin && account.refused === null ? await twice(job, account, fileId, twin, index) : account;
    }
  }
  return accounts;
}

async function twice(
  { staging }: ReadingJob,
  { name, table, fingerprint }: FileAccount,
  fileId: number,
  twin: FileAccount,
  index: number,
): Promise<FileAccount> {
  await staging.forget(table ?? 'services', fileId);
  const why = `is the same as ${twin.name}, byte for byte, and counts once`;
  return index === 0 ? refusedFile(name, table, why, fingerprint) : nothingOf(name);
}

/** The axles of the units read so far. */
async function knowUnits(engine: Engine, job: ReadingJob): Promise<void> {
  const { staging } = job;
  if (job.roles.size > 0 || !staging.has('units', 'unit_id')) return;
  job.roles = await unitRolesIn(engine, staging.table('units'), staging.has('units', 'former_ids'));
}

/** The accounts once rows whose id stood before have been set aside. */
async function withoutDuplicates(
  engine: Engine,
  job: ReadingJob,
  { files }: Plan,
  accounts: readonly FileAccount[],
): Promise<FileAccount[]> {
  const { staging, signal } = job;
  const originals: Originals = (places) => originalRows(places, files, job);
  const names = accounts.map(({ name }) => name);
  const twice = new Map<number, number>();
  for (const table of identifiedTables) {
    const counts = await setAsideDuplicates(engine, staging, table, names, originals, signal);
    for (const [fileId, count] of counts) twice.set(fileId, count);
  }
  return accounts.map((account, fileId) => {
    const count = twice.get(fileId) ?? 0;
    return { ...account, kept: account.kept - count, setAside: account.setAside + count };
  });
}

const unread = (plan: Plan, own: OwnWords, unpacked: UnpackedSources, saved: MapsFound): FileAccount[] =>
  [unpacked, plan, own, saved].flatMap(({ refused }) => refused.map(({ name, why }) => refusedFile(name, null, why)));

async function reportOf(
  { said, refused }: OwnWords,
  files: readonly FileAccount[],
  { others }: SortedSources,
  folder: string | null,
  notes: readonly string[],
): Promise<ReadReport> {
  const used = files.filter((file) => file.refused === null);
  const passedOver = listed(others.map(({ name }) => name));
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
