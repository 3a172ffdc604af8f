/** What a reader put away or switched off. */
export interface Preferences {
  readonly tourDone: boolean;
  readonly shortcutsOff: boolean;
}

const place = 'hubcause-preferences';
const atFirst: Preferences = { tourDone: false, shortcutsOff: false };
/** Before the browser was looked at nothing is offered that may have been put away. */
const unknown: Preferences = { tourDone: true, shortcutsOff: true };

const read = (store: Storage): Partial<Preferences> | null => {
  const written = store.getItem(place);
  return written === null ? null : (JSON.parse(written) as Partial<Preferences>);
};

/** Holds for the visit; across visits only where the reader has this browser keep something anyway. */
class PreferenceStore {
  private state: Preferences | null = null;
  private agreed = false;
  private readonly listeners = new Set<() => void>();

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };
  readonly now = (): Preferences => (this.state ??= this.look());
  readonly atFirst = (): Preferences => unknown;

  readonly change = (part: Partial<Preferences>): void => {
    this.state = { ...this.now(), ...part };
    this.write();
    for (const listener of this.listeners) listener();
  };

  /** Whether the reader agreed to keep something in this browser. */
  readonly agree = (agreed: boolean): void => {
    if (agreed === this.agreed) return;
    this.agreed = agreed;
    this.write();
  };

  /** Nothing is left in this browser once the visit ends. */
  readonly forget = (): void => {
    this.agreed = false;
    this.tryWith(() => localStorage.removeItem(place));
  };

  private look(): Preferences {
    let found = atFirst;
    this.tryWith(() => (found = { ...found, ...read(localStorage), ...read(sessionStorage) }));
    return found;
  }

  private write(): void {
    const text = JSON.stringify(this.now());
    this.tryWith(() => {
      sessionStorage.setItem(place, text);
      if (this.agreed) localStorage.setItem(place, text);
    });
  }

  /** A browser may forbid its stores, or hold what is none of ours: then it holds until the page is left. */
  private tryWith(work: () => void): void {
    try {
      work();
    } catch {
      return;
    }
  }
}

export const preferences = new PreferenceStore();
