import type { ColumnMap } from '../../../shared/column-map.ts';
import type { Drawer } from './drawer.ts';
import { drawerName, mapsFolder, openDrawer } from './open-drawer.ts';
import { keptMapsText, readKeptMaps, withMaps, type KeptMap } from './kept-maps.ts';

const place = `${mapsFolder}/kept.json`;

export interface MapsState {
  /** Null until they were looked for. */
  readonly kept: readonly KeptMap[] | null;
  readonly trouble: string | null;
}

const atFirst: MapsState = { kept: null, trouble: null };

/** The column maps that this browser keeps, by which next month's files are read without asking. */
export class ColumnMapStore {
  private state = atFirst;
  private readonly listeners = new Set<() => void>();
  private drawer: Promise<Drawer> | null = null;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };
  readonly now = (): MapsState => this.state;
  readonly atFirst = (): MapsState => atFirst;

  /** Looks anew: another tab may have changed them. A store that cannot be used leaves none, and says so. */
  readonly load = async (): Promise<readonly KeptMap[]> => {
    const found = await this.read().catch((error: unknown) => `cannot be reached (${String(error)})`);
    const kept = typeof found === 'string' ? [] : found;
    this.change({ kept, trouble: typeof found === 'string' ? `The column maps kept in this browser ${found}.` : null });
    return kept;
  };

  /** Maps to read files by. */
  readonly forReading = async (): Promise<readonly ColumnMap[]> => (await this.load()).map(({ map }) => map);

  /** Keeps maps in the place of those of the same sources. */
  readonly keep = async (maps: readonly ColumnMap[]): Promise<void> => {
    const savedOn = new Date().toISOString();
    const kept = withMaps(
      await this.load(),
      maps.map((map) => ({ map, savedOn })),
    );
    await this.write(kept);
  };

  readonly forget = async (source: string): Promise<void> => {
    const kept = (await this.load()).filter(({ map }) => map.source !== source);
    await this.write(kept);
  };

  /** To be called once the drawer was cleared. */
  readonly forgotten = (): void => this.change({ kept: [], trouble: null });

  private async read(): Promise<KeptMap[] | string> {
    const drawer = await this.open();
    const written = await drawer.get(place);
    return written === null ? [] : readKeptMaps(await written.text());
  }

  private async write(kept: readonly KeptMap[]): Promise<void> {
    try {
      const drawer = await this.open();
      if (kept.length === 0) await drawer.drop(mapsFolder);
      else await drawer.put(place, new Blob([keptMapsText(kept)]).stream());
      this.change({ kept, trouble: null });
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      this.change({ trouble: `The column maps could not be kept in this browser (${why}). Save them as JSON.` });
    }
  }

  private open(): Promise<Drawer> {
    this.drawer ??= openDrawer(drawerName);
    return this.drawer;
  }

  private change(part: Partial<MapsState>): void {
    this.state = { ...this.state, ...part };
    for (const listener of this.listeners) listener();
  }
}

export const columnMaps = new ColumnMapStore();
