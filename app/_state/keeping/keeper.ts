import type { NamedFile } from '../record-desk.ts';
import type { Drawer } from './drawer.ts';
import { drawerName, lastingFolders, openDrawer } from './open-drawer.ts';
import { keptVersion, readKept, type KeptSet } from './kept-set.ts';
import { packedStream, unpacked, worthPacking } from './packing.ts';

const pointer = 'current/kept.json';

export interface ReopenedSet {
  readonly kept: KeptSet;
  readonly files: readonly NamedFile[];
}

/** What the files are read and judged by, beside what they say themselves. */
export type ReadBy = Pick<KeptSet, 'settings' | 'maps'>;

const streamOf = (text: string): ReadableStream<Uint8Array> => new Blob([text]).stream();

/** One tab at a time changes what is kept; where locks are missing there is only one tab to speak of. */
const alone = <T>(mode: LockMode, work: () => Promise<T>): Promise<T> =>
  'locks' in navigator ? navigator.locks.request(drawerName, { mode }, work) : work();

/**
 * Keeps one record set across visits: the files as they were given (packed), so that opening them again
 * gives the same account to the last row. A new set is written beside the old, which goes only once the
 * pointer names the new one: a tab that dies in between leaves the old one whole.
 */
export class Keeper {
  private drawer: Promise<Drawer> | null = null;
  private readonly channel = 'BroadcastChannel' in globalThis ? new BroadcastChannel(drawerName) : null;

  /** Hears of what other tabs do to what is kept. */
  heed(listener: (change: 'replaced' | 'forgotten') => void): void {
    this.channel?.addEventListener('message', ({ data }: MessageEvent<'replaced' | 'forgotten'>) => listener(data));
  }

  /** @throws QuotaExceededError and whatever else the browser says; what was kept before stays */
  async keep(name: string, files: readonly NamedFile[], by: ReadBy): Promise<void> {
    const drawer = await this.open();
    // Asked for, not relied on: a browser short of room may clear what it was not asked to persist.
    if ('storage' in navigator) await navigator.storage.persist().catch(() => false);
    await alone('exclusive', async () => {
      const folder = `set-${crypto.randomUUID()}`;
      try {
        const stored = [];
        for (const [at, { name: path, file }] of files.entries()) {
          const packed = worthPacking(path);
          await drawer.put(`${folder}/${at}`, packed ? packedStream(file) : file.stream());
          stored.push({ name: path, stored: `${folder}/${at}`, packed, bytes: file.size });
        }
        const kept: KeptSet = {
          ...{ version: keptVersion, folder, name, keptOn: new Date().toISOString(), files: stored },
          ...by,
        };
        await drawer.put(pointer, streamOf(JSON.stringify(kept)));
      } catch (error) {
        await drawer.drop(folder).catch(() => undefined);
        throw error;
      }
      await dropAllBut(drawer, [folder, 'current', ...lastingFolders]);
    });
    this.channel?.postMessage('replaced');
  }

  /** What is kept, its files read into this page; null where nothing is, a text where it cannot be used. */
  async kept(): Promise<ReopenedSet | string | null> {
    const drawer = await this.open();
    return alone('shared', async () => {
      const written = await drawer.get(pointer);
      if (written === null) return null;
      const kept = readKept(await written.text());
      if (typeof kept === 'string') return kept;
      const files: NamedFile[] = [];
      for (const { name, stored, packed, bytes } of kept.files) {
        const blob = await drawer.get(stored);
        const content = blob === null ? null : await unpacked(blob, packed).catch(() => null);
        if (content === null || content.size !== bytes) return `${name}, which was kept, is missing or damaged`;
        files.push({ name, file: new File([content], name) });
      }
      return { kept, files };
    });
  }

  /** Settings or column maps were changed since the files were kept. */
  async keepReadBy(by: ReadBy): Promise<void> {
    const drawer = await this.open();
    await alone('exclusive', async () => {
      const kept = readKept((await (await drawer.get(pointer))?.text()) ?? '');
      if (typeof kept !== 'string') await drawer.put(pointer, streamOf(JSON.stringify({ ...kept, ...by })));
    });
  }

  /** Clears the records away; column maps and the brief, too, where nothing is to be left. */
  async forget(everything: boolean): Promise<void> {
    const drawer = await this.open();
    await alone('exclusive', async () => {
      // The pointer first: what it named is then nobody's, whatever happens next.
      await drawer.drop('current');
      await dropAllBut(drawer, everything ? [] : lastingFolders);
    });
    this.channel?.postMessage('forgotten');
  }

  private open(): Promise<Drawer> {
    this.drawer ??= openDrawer(drawerName);
    return this.drawer;
  }
}

async function dropAllBut(drawer: Drawer, folders: readonly string[]): Promise<void> {
  for (const folder of await drawer.folders()) if (!folders.includes(folder)) await drawer.drop(folder);
}
