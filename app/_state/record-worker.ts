import './no-eval.ts';
import * as Comlink from 'comlink';
import { openBrowserEngine } from '../../lib/engine/browser.ts';
import type { Engine } from '../../lib/engine/engine.ts';
import { livesFromRecords, proceduresOf, type LivesSource } from '../../lib/lives/index.ts';
import { ask } from '../../lib/questions/index.ts';
import { recordQuality } from '../../lib/questions/record-quality/index.ts';
import { readRecords, setAsideCsv, setAsideRows, type RecordSource } from '../../lib/records/index.ts';
import type { Progress, ReadReport } from '../../shared/record-set.ts';
import { demoFiles } from './demo-files.ts';
import type { OpenedRecords, RecordDesk, ToldProgress } from './record-desk.ts';
import { recordTotals, scopeChoices } from './scope-choices.ts';
import { seldom } from './seldom.ts';

let lives: LivesSource | null = null;
const jobs = new Map<number, AbortController>();

const opened = (): LivesSource => {
  if (lives === null) throw new Error('no records are open');
  return lives;
};

async function startEngine(): Promise<Engine> {
  try {
    return await openBrowserEngine();
  } catch (error) {
    throw Object.assign(new Error(error instanceof Error ? error.message : String(error)), { name: 'EngineFailure' });
  }
}

async function open(sources: () => Promise<RecordSource[]>, told: ToldProgress): Promise<OpenedRecords | ReadReport> {
  const say = seldom((progress: Progress) => told(progress));
  const engine = await startEngine();
  const report = await readRecords(engine, await sources(), { onProgress: say });
  if (report.files.every(({ kept }) => kept === 0)) return report;
  say({ doing: 'Rebuilding lives', share: null });
  lives = await livesFromRecords(engine, report, proceduresOf(report));
  await lives.ensure('seal');
  const [totals, choices] = [await recordTotals(engine), await scopeChoices(engine)];
  return { report, ...totals, choices };
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
  openFiles: (files, told) => open(() => Promise.resolve(files.map(({ name, file }) => blobSource(name, file))), told),
  async ask(job, question, view, units) {
    const controller = new AbortController();
    jobs.set(job, controller);
    try {
      return await ask(opened(), question, view, controller.signal, { unitSystem: units });
    } finally {
      jobs.delete(job);
    }
  },
  abandon: (job) => jobs.get(job)?.abort(),
  setAside: (offset, limit) => setAsideRows(opened().engine, offset, limit),
  recordQuality: () => recordQuality(opened()),
  async setAsideCsv() {
    const parts: string[] = [];
    for await (const part of setAsideCsv(opened().engine)) parts.push(part);
    return new Blob(parts, { type: 'text/csv' });
  },
};

Comlink.expose(desk);
