import type { NamedFile } from '../record-desk.ts';
import { messageOf, recordSets, type OpenRecordSet } from '../record-sets.ts';
import { briefStore } from '../brief/brief-store.ts';
import { preferences } from '../preferences.ts';
import { columnMaps } from './column-map-store.ts';
import { Keeper } from './keeper.ts';

export type Keeping =
  /** Nobody has looked yet. */
  | { readonly is: 'unknown' | 'nothing' }
  | { readonly is: 'saving' | 'kept'; readonly name: string }
  /** What is kept cannot be used, or nothing could be kept; `forgettable` where forgetting clears it away. */
  | { readonly is: 'trouble'; readonly message: string; readonly forgettable: boolean };

export interface KeptState {
  readonly keeping: Keeping;
  /** What another tab did to what is kept, since this one last looked. */
  readonly elsewhere: 'replaced' | 'forgotten' | null;
}

const atFirst: KeptState = { keeping: { is: 'unknown' }, elsewhere: null };

const noRoom = (error: unknown): boolean => error instanceof DOMException && error.name === 'QuotaExceededError';
const readBy = ({ settings, maps }: Pick<OpenRecordSet, 'settings' | 'maps'>): string =>
  JSON.stringify([settings, maps]);
const megabytes = (files: readonly NamedFile[]): string =>
  Math.max(1, Math.round(files.reduce((sum, { file }) => sum + file.size, 0) / 1e6)).toLocaleString('en-US');

/** Records that survive a reload, if their reader says so; and their end. */
export class KeptRecords {
  private state = atFirst;
  private readonly listeners = new Set<() => void>();
  /** The set whose files lie in the drawer; others that are opened while something is kept take its place. */
  private filed: Pick<OpenRecordSet, 'files' | 'settings' | 'maps'> | null = null;

  constructor(private readonly keeper: Keeper) {}

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };
  readonly now = (): KeptState => this.state;
  readonly atFirst = (): KeptState => atFirst;

  /** Opens what was kept, else the demo fleet; never leaves the page empty over a broken store. */
  readonly openAtStart = async (): Promise<void> => {
    if (!recordSets.now().untouched || this.state.keeping.is !== 'unknown') return;
    this.keeper.heed((change) => {
      this.change({ elsewhere: change });
      if (change === 'forgotten') void briefStore.lookAgain();
    });
    recordSets.subscribe(this.follow);
    const found = await this.keeper
      .kept()
      .catch((error: unknown) => `what is kept in this browser cannot be reached (${messageOf(error)})`);
    // Somebody was quicker: what they opened stands.
    if (!recordSets.now().untouched) {
      this.change({ keeping: { is: 'nothing' } });
      return;
    }
    if (found === null || typeof found === 'string') {
      this.change({
        keeping: found === null ? { is: 'nothing' } : { is: 'trouble', message: found, forgettable: true },
      });
      return recordSets.openDemo();
    }
    const { files, kept } = found;
    const { settings, maps } = kept;
    this.filed = { files, settings, maps };
    this.change({ keeping: { is: 'kept', name: kept.name } });
    // As they were: a map that was changed since for others asks nothing and changes nothing here.
    return recordSets.openFiles(files, { settings, maps, kept: [] });
  };

  readonly keep = async (open: OpenRecordSet): Promise<void> => {
    const { files, settings, maps } = open;
    if (files === null || this.state.keeping.is === 'saving') return;
    const { name } = open.report;
    this.change({ keeping: { is: 'saving', name }, elsewhere: null });
    try {
      await this.keeper.keep(name, files, { settings, maps });
      this.filed = { files, settings, maps };
      this.change({ keeping: { is: 'kept', name } });
    } catch (error) {
      const message = noRoom(error)
        ? `This browser has no room to keep ${name} (${megabytes(files)} MB before packing). It stays open until this page is closed; what was kept before is as it was.`
        : `${name} could not be kept (${messageOf(error)}). It stays open until this page is closed; what was kept before is as it was.`;
      this.change({ keeping: { is: 'trouble', message, forgettable: this.filed !== null } });
    }
  };

  /** Clears the records out of the drawer; what is open stays open; column maps and the brief stay. */
  readonly stopKeeping = (): Promise<void> => this.clear(false);

  private async clear(everything: boolean): Promise<void> {
    try {
      await this.keeper.forget(everything);
      this.filed = null;
      this.change({ keeping: { is: 'nothing' }, elsewhere: null });
    } catch (error) {
      const message = `What is kept could not be cleared away (${messageOf(error)}). Clear this site’s data in the browser’s own settings.`;
      this.change({ keeping: { is: 'trouble', message, forgettable: true } });
    }
  }

  /** Ends the worker and clears the drawer: nothing of the records is left in this browser. */
  readonly forgetEverything = async (): Promise<void> => {
    recordSets.forget();
    // First: a brief that is being written down must not come back.
    briefStore.forgotten();
    await this.clear(true);
    columnMaps.forgotten();
    preferences.forget();
  };

  /** Whoever keeps records keeps the next ones too, and what is changed of their settings and column maps. */
  private readonly follow = (): void => {
    const { open } = recordSets.now();
    if (this.state.keeping.is !== 'kept' || !open?.files) return;
    if (open.files !== this.filed?.files) void this.keep(open);
    else if (readBy(open) !== readBy(this.filed)) void this.keepReadBy(open);
  };

  private async keepReadBy({ files, settings, maps, report }: OpenRecordSet): Promise<void> {
    this.filed = { files, settings, maps };
    await this.keeper.keepReadBy({ settings, maps }).catch((error: unknown) => {
      const message = `The settings of ${report.name} could not be kept (${messageOf(error)}). They hold until this page is closed.`;
      this.change({ keeping: { is: 'trouble', message, forgettable: true } });
    });
  }

  private change(part: Partial<KeptState>): void {
    this.state = { ...this.state, ...part };
    for (const listener of this.listeners) listener();
  }
}

export const keptRecords = new KeptRecords(new Keeper());
