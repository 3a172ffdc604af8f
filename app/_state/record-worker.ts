import './no-eval.ts';
import * as Comlink from 'comlink';
import { openBrowserEngine } from '../../lib/engine/browser.ts';
import type { Engine } from '../../lib/engine/engine.ts';
import { ask } from '../../lib/questions/index.ts';
import { recordQuality } from '../../lib/questions/record-quality/index.ts';
import { readRecords, setAsideCsv, setAsideRows, type RecordSource } from '../../lib/records/index.ts';
import type { Progress, ReadReport } from '../../shared/record-set.ts';
import { demoFiles } from './demo-files.ts';
import { DeskJobs } from './desk-jobs.ts';
import { deskOfLives } from './desk-of-lives.ts';
import { openedRecords, setFrom, settingsOf, type OpenedSet } from './opened-set.ts';
import type { NewSettings } from './lives-desk.ts';
import type { RecordDesk } from './record-desk.ts';
import type { OpenedRecords, ToldProgress } from './opened-records.ts';
import { seldom } from './seldom.ts';

let held: OpenedSet | null = null;
const jobs = new DeskJobs();

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
  settings: NewSettings = {},
): Promise<OpenedRecords | ReadReport> {
  const say = seldom((progress: Progress) => told(progress));
  const engine = await startEngine();
  const files = await sources();
  const report = await readRecords(engine, files, { onProgress: say });
  if (report.files.every(({ kept }) => kept === 0)) return report;
  say({ doing: 'Rebuilding lives', share: null });
  held = await setFrom(engine, files, report, { ...settingsOf(report), ...settings });
  return openedRecords(held);
}

const blobSource = (name: string, file: Blob): RecordSource => ({
  name,
  size: file.size,
  stream: () => file.stream(),
  part: (start, end) => file.slice(start, end).stream(),
});

async function demoSources(): Promise<RecordSource[]> {
  return Promise.all(
    demoFiles.map(async ({ name, url }) => {
      const response = await fetch(url);
      if (!response.ok) throw new Error(`the demo fleet's ${name} could not be fetched: ${response.status}`);
      const file = await response.blob();
      return blobSource(name, file);
    }),
  );
}

const desk: RecordDesk = {
  openDemo: (told) => open(demoSources, told),
  openFiles: (files, told, settings) =>
    open(() => Promise.resolve(files.map(({ name, file }) => blobSource(name, file))), told, settings),
  ...deskOfLives({ opened: openedSet, replace: (set) => (held = set), work: jobs.work, alone: jobs.alone }),
  ask: (job, question, view, units) =>
    jobs.work(job, (signal) => ask(opened(), question, view, signal, { unitSystem: units })),
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
