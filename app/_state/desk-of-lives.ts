import { arrowFileOfParts } from '../../lib/engine/arrow-file.ts';
import type { ResultColumn, ResultTable } from '../../lib/engine/engine.ts';
import {
  conflicts,
  judgedLives,
  judgementsChanged,
  livesInParts,
  mileageRepairList,
  openLife,
  rebuildAccount,
  unitHistory,
} from '../../lib/lives/index.ts';
import { listedLives, listLives, type LivesListed } from '../../lib/questions/index.ts';
import { csvText, rowsAsWritten } from '../../lib/records/index.ts';
import { distanceSays } from '../../lib/charts/index.ts';
import type { Progress } from '../../shared/record-set.ts';
import type { LivesAsked, LivesDesk } from './lives-desk.ts';
import { repairsCsv } from './repairs-csv.ts';
import { openedRecords, rebuiltSet, type OpenedSet } from './opened-set.ts';
import { seldom } from './seldom.ts';

/** Listings kept: the one shown, and those the back button leads to. */
const mostListings = 3;

type Work = <Value>(job: number, run: (signal: AbortSignal) => Promise<Value>) => Promise<Value>;

/** What the desk of lives works on: the set that is open, jobs that can be abandoned, and another set in its place. */
export interface DeskHold {
  readonly opened: () => OpenedSet;
  readonly replace: (set: OpenedSet) => void;
  readonly work: Work;
  /** Work that no other must meet: what is under way is ended, what comes waits. */
  readonly alone: Work;
}

/** The worker's side of what shows lives and what they are judged by. */
export function deskOfLives({ opened, replace, work, alone }: DeskHold): LivesDesk {
  const listings = new Map<string, LivesListed>();
  let listedOf: OpenedSet | null = null;

  async function listing({ view, pick }: LivesAsked, signal: AbortSignal): Promise<LivesListed> {
    const set = opened();
    if (listedOf !== set) listings.clear();
    listedOf = set;
    // Which life lies open changes nothing of the list.
    const key = JSON.stringify([view, { ...pick, life: null }]);
    const found = listings.get(key) ?? (await listLives(set.lives, view, pick, signal));
    listings.delete(key);
    listings.set(key, found);
    const oldest = listings.keys().next().value;
    if (listings.size > mostListings && oldest !== undefined) listings.delete(oldest);
    return found;
  }

  return {
    countLives: (job, asked) => work(job, async (signal) => (await listing(asked, signal)).counted),
    listLives: (job, asked, from, count) =>
      work(job, async (signal) => listedLives(await listing(asked, signal), from, count)),
    openLife: (job, component, lifeId, units) =>
      work(job, async (signal) => {
        const { lives } = opened();
        await lives.ensure(component, signal);
        return openLife(lives.engine, component, lifeId, (miles) => distanceSays(miles, units), signal);
      }),
    vehicleHistory: (job, component, unitId) =>
      work(job, async (signal) => {
        const { lives } = opened();
        await lives.ensure(component, signal);
        return unitHistory(lives.engine, component, unitId, signal);
      }),
    rowsAsWritten: (job, rows) => work(job, (signal) => rowsAsWritten(opened().sources, rows, { signal })),
    livesFile: (job, asked, form, told) =>
      work(job, async (signal) => {
        const { component, rows } = await listing(asked, signal);
        const say = seldom((progress: Progress) => told(progress));
        const parts = withProgress(livesInParts(opened().lives.engine, component, rows, signal), rows.length, say);
        return form === 'arrow'
          ? new Blob([(await arrowFileOfParts(parts)) as Uint8Array<ArrayBuffer>], {
              type: 'application/vnd.apache.arrow.file',
            })
          : csvFile(parts);
      }),
    judged: (job) => work(job, (signal) => judgedLives(opened().lives.engine, signal)),
    conflicts: (job, offset, limit) => work(job, (signal) => conflicts(opened().lives.engine, offset, limit, signal)),
    account: (job) => work(job, (signal) => rebuildAccount(opened().lives.engine, signal)),
    repairs: (job, offset, limit) =>
      work(job, (signal) => mileageRepairList(opened().lives.engine, offset, limit, signal)),
    repairsFile: (job) =>
      work(job, async (signal) => {
        const { lives, report } = opened();
        const text = repairsCsv(await mileageRepairList(lives.engine, 0, null, signal), report.files);
        return new Blob(['\uFEFF', text], { type: 'text/csv' });
      }),
    rebuild: (job, settings, told) =>
      alone(job, async (signal) => {
        const say = (progress: Progress) => told(progress);
        const changed = await judgementsChanged(opened().lives.engine, async () =>
          replace(await rebuiltSet(opened(), settings, say, signal)),
        );
        return { opened: await openedRecords(opened()), changed };
      }),
  };
}

async function* withProgress(
  parts: AsyncIterable<ResultTable>,
  total: number,
  say: (progress: Progress) => void,
): AsyncGenerator<ResultTable, void, undefined> {
  let done = 0;
  for await (const part of parts) {
    done += part.rows;
    say({ doing: 'Writing lives', share: total === 0 ? null : done / total });
    yield part;
  }
}

const cell = (column: ResultColumn | undefined, row: number): string | number | null => {
  const value = column?.[row] ?? null;
  return typeof value === 'number' && Number.isNaN(value) ? null : value;
};

/** The mark in front tells spreadsheets that the text is UTF-8. */
async function csvFile(parts: AsyncIterable<ResultTable>): Promise<Blob> {
  const texts: string[] = ['\uFEFF'];
  for await (const { rows, columns } of parts) {
    const names = Object.keys(columns);
    const lines = Array.from({ length: rows }, (_, row) => names.map((name) => cell(columns[name], row)));
    const text = csvText(names, lines);
    // Only the first part brings the headers.
    texts.push(texts.length === 1 ? text : text.slice(text.indexOf('\n') + 1));
  }
  return new Blob(texts, { type: 'text/csv' });
}
