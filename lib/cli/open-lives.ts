import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { basename } from 'node:path';
import { openTableFile, openWorkingEngine, type NativeEngine } from '../engine/node.ts';
import { numberColumn, textColumn } from '../engine/engine.ts';
import { identifier, sql } from '../engine/statement.ts';
import { livesFromRecords, livesFromTable, proceduresOf, type LivesSource } from '../lives/index.ts';
import { readRecords, settingsFingerprint, type RebuildSettings } from '../records/index.ts';
import type { ColumnMap } from '../../shared/column-map.ts';
import type { Procedure } from '../../shared/procedure.ts';
import type { ReadReport } from '../../shared/record-set.ts';
import { NothingUsable, type Streams } from './call.ts';
import { columnMaps } from './column-maps.ts';
import { bytesOf, livesFileOf, recordSources } from './record-sources.ts';

export interface OpenedLives {
  readonly engine: NativeEngine;
  readonly source: LivesSource;
  /** Fingerprint of the records by themselves, whatever settings they were rebuilt by. */
  readonly records: string;
  /** By which the lives are judged; none where they came judged. */
  readonly procedures: readonly Procedure[];
}

/** Reasons that a column map would do away with. */
const needsMap = /^(has no column|goes by no table|looks like .* whose column map)/;

/** Says what was refused, passed over or set aside, on the side channel. */
export function sayReport({ files, messages }: ReadReport, { err }: Streams): void {
  for (const { name, refused } of files) if (refused !== null) err(`${name}: ${refused}`);
  for (const message of messages) err(message);
  if (files.some(({ refused }) => refused !== null && needsMap.test(refused)))
    err(
      '`read <files> --propose-map MAP.json` proposes what the columns of such files mean; `--map MAP.json` then reads them',
    );
  const aside = files.reduce((sum, { setAside }) => sum + setAside, 0);
  const read = files.reduce((sum, file) => sum + file.read, 0);
  if (aside > 0) err(`${aside} of ${read} rows set aside; \`read --set-aside FILE\` writes them down with the reasons`);
}

/** @throws NothingUsable where no service and no failure could be kept */
export function needEvents({ files }: ReadReport): void {
  const kept = files
    .filter(({ table }) => table === 'services' || table === 'failures')
    .reduce((sum, file) => sum + file.kept, 0);
  if (kept === 0)
    throw new NothingUsable(
      'nothing usable in the records; services and failures are the least that gives results; rows kept of them: 0',
    );
}

async function fingerprintOf(path: string): Promise<string> {
  const hash = createHash('sha256');
  for await (const chunk of createReadStream(path)) hash.update(chunk as Uint8Array);
  return hash.digest('hex');
}

/** What was written beside the lives, where something was. */
type Beside = Pick<OpenBy, 'episodes' | 'evidence'>;

async function openLivesFile(
  engine: NativeEngine,
  path: string,
  { episodes, evidence = {} }: Beside,
): Promise<LivesSource> {
  if (episodes !== undefined) await openTableFile(engine, episodes, 'opened_episodes');
  await openTableFile(engine, path, 'opened_lives').catch((error: unknown) => {
    throw new NothingUsable(error instanceof Error ? error.message : String(error));
  });
  const described = await engine.query(
    sql`select column_name from information_schema.columns where table_name = 'opened_lives'`,
  );
  const columns = textColumn(described, 'column_name').map(String);
  const counted = await engine.query(sql`select cast(count(*) as double) as n from ${identifier('opened_lives')}`);
  const rows = numberColumn(counted, 'n')[0] ?? 0;
  const file = { name: basename(path), table: 'lives', read: rows, kept: rows, setAside: 0 };
  const account = {
    fingerprint: await fingerprintOf(path),
    files: [file],
    setAside: 0,
    observedFrom: null,
    observedTo: null,
    invented: false,
  };
  const tables: Record<string, string> = {};
  for (const [name, file] of Object.entries(evidence)) {
    tables[name] = `opened_evidence_${name.replaceAll('-', '_')}`;
    await openTableFile(engine, file, tables[name]);
  }
  const beside = { ...(episodes === undefined ? {} : { episodes: 'opened_episodes' }), evidence: tables };
  return livesFromTable(engine, 'opened_lives', columns, account, beside).catch((error: unknown) => {
    throw new NothingUsable(`${path}: ${error instanceof Error ? error.message : String(error)}`);
  });
}

/** What lives are opened by, beside what the files say themselves. */
export interface OpenBy {
  readonly maps?: readonly ColumnMap[];
  /** In place of what the records bring. */
  readonly settings?: Partial<RebuildSettings>;
  readonly episodes?: string | undefined;
  /** Files of what questions read beside lives and episodes, by what they hold. */
  readonly evidence?: Readonly<Record<string, string>> | undefined;
}

/** Lives from a folder or files of records, by column maps where some are named, or from one lives table. Close the engine when done. */
export async function openLives(
  paths: readonly string[],
  mapPaths: readonly string[] | undefined,
  streams: Streams,
  { maps: given = [], settings = {}, ...beside }: OpenBy = {},
): Promise<OpenedLives> {
  const named = columnMaps(mapPaths);
  const maps = [...named, ...given];
  const lives = named.length > 0 ? null : livesFileOf(paths);
  const sources = lives === null ? recordSources(paths) : [];
  const engine = await openWorkingEngine(bytesOf(lives === null ? sources : recordSources([lives])));
  try {
    if (lives !== null) {
      const source = await openLivesFile(engine, lives, beside);
      return { engine, source, records: source.account.fingerprint, procedures: [] };
    }
    const report = await readRecords(engine, sources, { maps });
    sayReport(report, streams);
    needEvents(report);
    const atFirst = { procedures: proceduresOf(report), choices: report.choices };
    const by = { ...atFirst, ...settings };
    const fingerprint = await settingsFingerprint(report, atFirst, by);
    const source = await livesFromRecords(engine, { ...report, fingerprint }, by.procedures, by.choices);
    return { engine, source, records: report.fingerprint, procedures: by.procedures };
  } catch (error) {
    await engine.close();
    throw error;
  }
}
