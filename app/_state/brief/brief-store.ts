import { briefIn, briefText } from '../../../lib/brief/brief-file.ts';
import { emptyBrief, type Brief, type BriefEntry } from '../../../shared/brief.ts';
import type { Finding } from '../../../shared/finding.ts';
import type { UnitSystem } from '../../../shared/units.ts';
import type { Drawer } from '../keeping/drawer.ts';
import { briefFolder, drawerName, openDrawer } from '../keeping/open-drawer.ts';

const place = `${briefFolder}/kept.json`;

export interface BriefState {
  readonly brief: Brief;
  readonly kept: boolean;
  readonly trouble: string | null;
  /** The finding taken out last, and where it stood. */
  readonly removed: { readonly entry: BriefEntry; readonly at: number } | null;
}

const atFirst: BriefState = { brief: emptyBrief, kept: false, trouble: null, removed: null };
/** So long after the last key a brief that is kept is written down. */
const pause = 500;

const asked = ({ question, settings }: Finding, units: UnitSystem): string =>
  JSON.stringify([question, settings, units]);
const messageOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** The brief in the making: outlives the page it is written on, and the visit where its writer says so. */
export class BriefStore {
  private state = atFirst;
  private readonly listeners = new Set<() => void>();
  private drawer: Promise<Drawer> | null = null;
  private loading: Promise<void> | null = null;
  private timer: ReturnType<typeof setTimeout> | undefined;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };
  readonly now = (): BriefState => this.state;
  readonly atFirst = (): BriefState => atFirst;

  /** What was kept, once a visit; what has been begun meanwhile stands. */
  readonly load = (): Promise<void> => (this.loading ??= this.read());

  /** The finding at the end, or in the place of the same question asked before. */
  readonly put = (finding: Finding, units: UnitSystem): void =>
    this.edit(({ entries, ...brief }) => {
      const before = entries.find((entry) => asked(entry.finding, entry.units) === asked(finding, units));
      if (before !== undefined)
        return { ...brief, entries: entries.map((entry) => (entry === before ? { ...entry, finding } : entry)) };
      return { ...brief, entries: [...entries, { id: crypto.randomUUID(), finding, units, note: '' }] };
    });

  /** The finding is in it as it stands. */
  readonly holds = (finding: Finding, units: UnitSystem): boolean =>
    this.state.brief.entries.some(
      (entry) =>
        asked(entry.finding, entry.units) === asked(finding, units) &&
        entry.finding.data.fingerprint === finding.data.fingerprint,
    );

  readonly move = (id: string, to: number): void =>
    this.edit(({ entries, ...brief }) => {
      const moved = entries.find((entry) => entry.id === id);
      if (moved === undefined) return { ...brief, entries };
      const others = entries.filter((entry) => entry !== moved);
      return { ...brief, entries: [...others.slice(0, to), moved, ...others.slice(to)] };
    });

  readonly remove = (id: string): void => {
    const at = this.state.brief.entries.findIndex((entry) => entry.id === id);
    const entry = this.state.brief.entries[at];
    if (entry === undefined) return;
    this.edit(({ entries, ...brief }) => ({ ...brief, entries: entries.filter((other) => other !== entry) }));
    this.change({ removed: { entry, at } });
  };

  readonly putBack = (): void => {
    const { removed } = this.state;
    if (removed === null) return;
    this.edit(({ entries, ...brief }) => ({
      ...brief,
      entries: [...entries.slice(0, removed.at), removed.entry, ...entries.slice(removed.at)],
    }));
  };

  readonly edit = (edited: (brief: Brief) => Brief): void => {
    this.change({ brief: edited(this.state.brief), removed: null });
    if (!this.state.kept) return;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.write(), pause);
  };

  readonly keep = async (kept: boolean): Promise<void> => {
    clearTimeout(this.timer);
    this.change({ kept, trouble: null });
    if (kept) await this.write();
    else await (await this.open()).drop(briefFolder).catch((error: unknown) => this.fail(error));
  };

  /** Another tab may have cleared the drawer: what it forgot is not to be written down again from here. */
  readonly lookAgain = async (): Promise<void> => {
    if (!this.state.kept || (await this.found()) !== null) return;
    clearTimeout(this.timer);
    this.change({ kept: false });
  };

  /** To be called once the drawer was cleared: nothing of it is left. */
  readonly forgotten = (): void => {
    clearTimeout(this.timer);
    this.change(atFirst);
  };

  private async found(): Promise<Blob | null> {
    const drawer = await this.open();
    return drawer.get(place).catch(() => null);
  }

  private async read(): Promise<void> {
    try {
      const written = await (await this.open()).get(place);
      if (written === null) return;
      const brief = briefIn(await written.text());
      this.change(this.state.brief === emptyBrief ? { brief, kept: true } : { kept: true });
    } catch (error) {
      this.change({ trouble: `The brief kept in this browser cannot be used: it ${messageOf(error)}.` });
    }
  }

  private async write(): Promise<void> {
    try {
      await (await this.open()).put(place, new Blob([briefText(this.state.brief)]).stream());
      // Forgotten while it was being written: it must not come back.
      if (!this.state.kept) await (await this.open()).drop(briefFolder);
      else if (this.state.trouble !== null) this.change({ trouble: null });
    } catch (error) {
      this.fail(error);
    }
  }

  private fail(error: unknown): void {
    this.change({ trouble: `The brief could not be kept in this browser (${messageOf(error)}). Save it as JSON.` });
  }

  private open(): Promise<Drawer> {
    this.drawer ??= openDrawer(drawerName);
    return this.drawer;
  }

  private change(part: Partial<BriefState>): void {
    this.state = { ...this.state, ...part };
    for (const listener of this.listeners) listener();
  }
}

export const briefStore = new BriefStore();
