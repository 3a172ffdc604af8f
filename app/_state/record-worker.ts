import './no-eval.ts';
import * as Comlink from 'comlink';
import { openBrowserEngine } from '../../lib/engine/browser.ts';
import type { Engine } from '../../lib/engine/engine.ts';
import { ask, changeFingerprint, type AskOptions } from '../../lib/questions/index.ts';
import { recordQuality } from '../../lib/questions/record-quality/index.ts';
import {
  knownMaps,
  mapsBeside,
  readRecords,
  setAsideCsv,
  setAsideRows,
  unmappedFiles,
  type RecordSource,
} from '../../lib/records/index.ts';
import type { Progress } from '../../shared/record-set.ts';
import { deskOfBrief } from './brief/brief-desk.ts';
import { demoFiles, type DemoName } from './demo-files.ts';
import { DeskJobs } from './desk-jobs.ts';
import { deskOfColumns } from './desk-of-columns.ts';
import { deskOfLives } from './desk-of-lives.ts';
import { openedRecords, setFrom, settingsOf, type OpenedSet } from './opened-set.ts';
import { queryTexts } from './query-texts.ts';
import type { RecordDesk, ToldNews } from './record-desk.ts';
import type { OpenAnswer, OpenHow, ToldProgress } from './opened-records.ts';
import { seldom } from './seldom.ts';
import { TakingTurns } from './taking-turns.ts';

let held: OpenedSet | null = null;
const jobs = new DeskJobs();
const turns = new TakingTurns();
const columns = deskOfColumns(jobs.work);

const openedSet = (): OpenedSet => {
  if (held === null) throw new Error('no records are open');
  return held;
};
const opened = () => openedSet().lives;

async function startEngine(): Promise<Engine> {
  try {
    return await openBrowserEngine();
  } catch (error) {
    throw Object.assign(new Error(error instanceof Error ? error.message : String(error)), { name: 'EngineFailure' });
  }
}

async function open(
  sources: () => Promise<RecordSource[]>,
  told: ToldProgress,
  { settings = {}, kept = [], maps: given = [], asks = false, again = [] }: OpenHow = {},
): Promise<OpenAnswer> {
  const say = seldom((progress: Progress) => told(progress));
  const files = await sources();
  const beside = await mapsBeside(files);
  const maps = knownMaps(given, knownMaps(beside, kept));
  if (asks) {
    const onFile = (name: string) => say({ doing: `Looking at ${name}`, share: null });
    const asked = columns.hold(await unmappedFiles(files, { maps, again, onFile }));
    if (asked.length > 0) return { asked };
  }
  const engine = await startEngine();
  const report = await readRecords(engine, files, {
    ...{ maps, onProgress: say },
    ...(settings.choices ? { duplicates: settings.choices.duplicates } : {}),
  });
  if (report.files.every(({ kept }) => kept === 0)) return report;
  held = await setFrom(engine, { sources: files, report, maps }, { ...settingsOf(report), ...settings }, say);
  return openedRecords(held);
}

/** What a question tells on its way to the page. */
function newsTo(told: ToldNews | undefined): AskOptions {
  if (told === undefined) return {};
  const say = seldom(told);
  return { onProgress: (progress) => say({ progress }), onFirst: (first) => told({ first }) };
}

const blobSource = (name: string, file: Blob): RecordSource => ({
  name,
  size: file.size,
  stream: () => file.stream(),
  part: (start, end) => file.slice(start, end).stream(),
});

async function demoSources(which: DemoName): Promise<RecordSource[]> {
  return Promise.all(
    demoFiles[which].map(async ({ name, url }) => {
      const response = await fetch(url);
      if (!response.ok) throw new Error(`the demo fleet's ${name} could not be fetched: ${response.status}`);
      const file = await response.blob();
      return blobSource(name, file);
    }),
  );
}

const desk: RecordDesk = {
  openDemo: (told, which) => open(() => demoSources(which), told),
  openFiles: (files, told, how) =>
    open(() => Promise.resolve(files.map(({ name, file }) => blobSource(name, file))), told, how),
  proposeColumns: columns.proposeColumns,
  proposeColumn: columns.proposeColumn,
  lookAtPlaces: columns.lookAtPlaces,
  takePlace: columns.takePlace,
  tryMap: columns.tryMap,
  ...deskOfLives({ opened: openedSet, replace: (set) => (held = set), work: jobs.work, alone: jobs.alone }),
  ...deskOfBrief(openedSet, jobs.work),
  ask: (job, question, view, units, told) =>
    jobs.work(job, (signal) =>
      turns.turn(question, signal, () => ask(opened(), question, view, signal, { unitSystem: units, ...newsTo(told) })),
    ),
  queries: (question, view) => Promise.resolve(queryTexts(opened(), question, view)),
  changeFingerprint,
  abandon: jobs.abandon,
  setAside: (offset, limit) => setAsideRows(opened().engine, offset, limit),
  recordQuality: () => recordQuality(opened()),
  async setAsideCsv() {
    const parts: string[] = [];
    for await (const part of setAsideCsv(opened().engine)) parts.push(part);
    return new Blob(parts, { type: 'text/csv' });
  },
};

Comlink.expose(desk);
