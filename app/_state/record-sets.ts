import * as Comlink from 'comlink';
import type { ColumnMap } from '../../shared/column-map.ts';
import type { Progress, ReadReport } from '../../shared/record-set.ts';
import type { AskedSource } from './columns-desk.ts';
import { columnMaps } from './keeping/column-map-store.ts';
import type { DemoName } from './demo-files.ts';
import type { JudgementsChanged, NewSettings } from './lives-desk.ts';
import { nextJob } from './next-job.ts';
import type { NamedFile, RecordDesk } from './record-desk.ts';
import {
  isAsked,
  isOpened,
  type OpenAnswer,
  type OpenedRecords,
  type OpenHow,
  type ToldProgress,
} from './opened-records.ts';

/** The record set the page is looking at, with the worker that holds it. */
export interface OpenRecordSet extends OpenedRecords {
  readonly desk: Comlink.Remote<RecordDesk>;
  /** Counts the sets opened since the page loaded; an answer from another set is stale. */
  readonly number: number;
  readonly demo: boolean;
  /** The files it was opened from; null for the demo fleet, which comes with the page. */
  readonly files: readonly NamedFile[] | null;
}

/** Files that wait until somebody has said what their columns mean, with the worker that looked at them. */
export interface WaitingFiles {
  readonly name: string;
  readonly files: readonly NamedFile[];
  readonly asked: readonly AskedSource[];
  readonly desk: Comlink.Remote<RecordDesk>;
  /** How they were opened, to go on so. */
  readonly how: OpenHow;
}

export type Trouble =
  | { readonly kind: 'engine' | 'reading'; readonly message: string }
  | { readonly kind: 'nothing-usable'; readonly report: ReadReport };

export interface RecordSetState {
  readonly open: OpenRecordSet | null;
  /** What is being opened and how far it has come. */
  readonly opening: { readonly name: string; readonly progress: Progress } | null;
  /** How far the lives have come that are rebuilt under other settings; the job that can be abandoned. */
  readonly rebuilding: { readonly job: number; readonly progress: Progress } | null;
  readonly trouble: Trouble | null;
  /** What opening stopped with; what is open meanwhile stays so. */
  readonly waiting: WaitingFiles | null;
  /** Nothing has been asked for yet: the page was only just loaded. */
  readonly untouched: boolean;
}

const untouched: RecordSetState = {
  open: null,
  opening: null,
  rebuilding: null,
  trouble: null,
  waiting: null,
  untouched: true,
};

const asExported: Readonly<Record<DemoName, string>> = { tidy: '', messy: ' as five shops would export it' };

interface Held {
  readonly worker: Worker;
  readonly desk: Comlink.Remote<RecordDesk>;
}

const startWorker = (): Held => {
  const worker = new Worker(new URL('./record-worker.ts', import.meta.url), { type: 'module' });
  return { worker, desk: Comlink.wrap<RecordDesk>(worker) };
};

/**
 * Every record set is opened by a worker of its own and takes the place of the last one only once
 * it has been read: cancelling, or files that cannot be used, leave what was open as it was.
 */
export class RecordSets {
  private state = untouched;
  private readonly listeners = new Set<() => void>();
  private held: Worker | null = null;
  private coming: Worker | null = null;
  /** The worker that looked at the files that wait. */
  private asking: Worker | null = null;
  private number = 0;

  /** @param keptMaps column maps of earlier files, to read the next ones by */
  constructor(private readonly keptMaps: () => Promise<readonly ColumnMap[]> = () => Promise.resolve([])) {}

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };
  readonly now = (): RecordSetState => this.state;
  readonly atFirst = (): RecordSetState => untouched;

  readonly openDemo = (which: DemoName = 'tidy'): Promise<void> => {
    this.putAway();
    return this.openWith(`the invented demo fleet${asExported[which]}`, null, {}, (desk, told) =>
      desk.openDemo(told, which),
    );
  };

  /** Opens files; where somebody has to say first what their columns mean, they wait. */
  readonly openFiles = (files: readonly NamedFile[], how: OpenHow = { asks: true }): Promise<void> => {
    this.putAway();
    return this.openNamed(files, how);
  };

  /** Opens the files that wait, by the maps that were confirmed; files without one go unread. They wait on where that fails. */
  readonly openWaiting = async (maps: readonly ColumnMap[]): Promise<void> => {
    const { waiting } = this.state;
    if (waiting === null) return;
    const { files, how } = waiting;
    const others = (how.maps ?? []).filter(({ source }) => !how.again?.includes(source));
    await this.openNamed(files, { ...how, maps: [...maps, ...others], asks: false, again: [] });
  };

  /** Asks once more what the columns of a source mean whose map the open files were read by. */
  readonly askAgain = async (source: string): Promise<void> => {
    const { open } = this.state;
    if (!open?.files) return;
    this.putAway();
    const { settings, maps, files } = open;
    await this.openNamed(files, { settings, maps, asks: true, again: [source] });
  };

  /** Files that wait are given up; what is open stays. */
  readonly putAway = (): void => {
    this.cancel();
    this.asking?.terminate();
    this.asking = null;
    this.change({ waiting: null });
  };

  /** Stops an opening at once; what was open before stays. */
  readonly cancel = (): void => {
    this.coming?.terminate();
    this.coming = null;
    this.change({ opening: null });
  };

  /** Ends the worker: records, lives and answers are gone with it. */
  readonly forget = (): void => {
    this.putAway();
    this.held?.terminate();
    this.held = null;
    this.change({ open: null, trouble: null });
  };

  /**
   * Rebuilds the lives of the open set by another procedure or other choices, and says what that
   * changed. Every answer of before is stale then: the set counts as opened anew.
   * @throws what went wrong; the set is then as it was
   */
  readonly rebuild = async (settings: NewSettings): Promise<JudgementsChanged | null> => {
    const { open, rebuilding } = this.state;
    if (open === null || rebuilding !== null) return null;
    const job = nextJob();
    this.change({ rebuilding: { job, progress: { doing: 'Rebuilding lives', share: null } } });
    const told = Comlink.proxy((progress: Progress) => {
      if (this.state.rebuilding?.job === job) this.change({ rebuilding: { job, progress } });
    });
    try {
      const { opened, changed } = await open.desk.rebuild(job, settings, told);
      if (this.state.open !== open) return null;
      this.change({ open: { ...open, ...opened, number: (this.number += 1) } });
      return changed;
    } finally {
      this.change({ rebuilding: null });
    }
  };

  /** Stops a rebuild; the lives are put back as they were. */
  readonly stopRebuild = (): void => {
    const { open, rebuilding } = this.state;
    if (open !== null && rebuilding !== null) void open.desk.abandon(rebuilding.job);
  };

  readonly dismissTrouble = (): void => this.change({ trouble: null });

  private change(part: Partial<RecordSetState>): void {
    this.state = { ...this.state, untouched: false, ...part };
    for (const listener of this.listeners) listener();
  }

  private openNamed(files: readonly NamedFile[], how: OpenHow): Promise<void> {
    const name = files.length === 1 ? (files[0]?.name ?? '') : `${files.length} files`;
    return this.openWith(name, files, how, async (desk, told) =>
      desk.openFiles(files, told, { kept: await this.keptMaps(), ...how }),
    );
  }

  private async openWith(
    name: string,
    files: readonly NamedFile[] | null,
    how: OpenHow,
    read: (desk: Held['desk'], told: ToldProgress) => Promise<OpenAnswer>,
  ): Promise<void> {
    this.cancel();
    const { worker, desk } = startWorker();
    this.coming = worker;
    const current = () => this.coming === worker;
    this.change({ trouble: null, opening: { name, progress: { doing: 'Starting the engine', share: null } } });
    const told = Comlink.proxy((progress: Progress) => {
      if (current()) this.change({ opening: { name, progress } });
    });
    try {
      const answer = await Promise.race([read(desk, told), failureOf(worker)]);
      if (!current()) return;
      this.coming = null;
      if (isAsked(answer)) this.wait(worker, { name, files: files ?? [], asked: answer.asked, desk, how });
      else if (isOpened(answer))
        this.take(worker, { ...answer, desk, files, demo: files === null, number: (this.number += 1) });
      else this.giveUp(worker, { kind: 'nothing-usable', report: answer });
    } catch (error) {
      if (!current()) return;
      this.coming = null;
      this.giveUp(worker, { kind: isEngineFailure(error) ? 'engine' : 'reading', message: messageOf(error) });
    }
  }

  private wait(worker: Worker, waiting: WaitingFiles): void {
    this.asking = worker;
    failureOf(worker).catch((error: unknown) => {
      if (this.asking !== worker) return;
      this.putAway();
      this.change({ trouble: { kind: 'reading', message: messageOf(error) } });
    });
    this.change({ opening: null, waiting });
  }

  private take(worker: Worker, open: OpenRecordSet): void {
    this.asking?.terminate();
    this.asking = null;
    this.held?.terminate();
    this.held = worker;
    // A tab that runs out of memory loses the worker first: without a word every question would wait for ever.
    failureOf(worker).catch((error: unknown) => {
      if (this.held !== worker) return;
      this.forget();
      this.change({ trouble: { kind: 'engine', message: messageOf(error) } });
    });
    this.change({ open, opening: null, waiting: null });
  }

  private giveUp(worker: Worker, trouble: Trouble): void {
    worker.terminate();
    this.change({ opening: null, trouble });
  }
}

/** A worker whose own script cannot be loaded or run says so here and nowhere else. */
const failureOf = (worker: Worker): Promise<never> =>
  new Promise((_, reject) => {
    worker.addEventListener('error', (event) => {
      reject(Object.assign(new Error(event.message || 'the worker could not be started'), { name: 'EngineFailure' }));
    });
  });

const isEngineFailure = (error: unknown): boolean => error instanceof Error && error.name === 'EngineFailure';

/** What the engine says where memory ends tells nobody what to do. */
const outOfMemory = /out of memory|allocation failure|could not allocate|memory access out of bounds/i;

export function messageOf(error: unknown): string {
  const message = error instanceof Error ? error.message : String(error);
  if (!outOfMemory.test(message)) return message;
  return `These records take more memory than a browser tab may have (4 GB). Open fewer years or shops at a time, close other tabs, or let the command line rebuild the lives (hubcause lives) and open that file here. The engine says: ${message}`;
}

export const recordSets = new RecordSets(() => columnMaps.forReading());
