import { fedTables, type ColumnMap, type Feeds } from '../../../shared/column-map.ts';
import type { TableName } from '../../../shared/record-tables.ts';
import type { SourceChoice } from '../../../shared/source-choice.ts';
import type { Ask } from '../columns-desk.ts';
import { nextJob } from '../next-job.ts';
import { messageOf, type WaitingFiles } from '../record-sets.ts';
import { answered, fedOtherwise, firstDraft, placedOtherwise, type Draft } from './draft.ts';
import { withProposed } from './edit-columns.ts';

export interface DraftsState {
  /** The files that wait, to which the drafts belong. */
  readonly of: WaitingFiles | null;
  readonly drafts: readonly Draft[];
  /** The draft that is looked at. */
  readonly at: number;
}

const nothing: DraftsState = { of: null, drafts: [], at: 0 };
/** Milliseconds that whoever types is left alone. */
const pause = 250;

/** The column maps in the making. Kept outside the page, so that looking at something else meanwhile loses nothing. */
export class ColumnDrafts {
  private state = nothing;
  private readonly listeners = new Set<() => void>();
  /** Trials asked for and not come yet, by source. */
  private readonly jobs = new Map<number, number>();
  /** How often the rows of a source were taken from elsewhere. */
  private readonly places = new Map<number, number>();
  private readonly timers = new Map<number, ReturnType<typeof setTimeout>>();

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };
  readonly now = (): DraftsState => this.state;
  readonly atFirst = (): DraftsState => nothing;

  /** Begins anew with other files; the same files again change nothing. */
  readonly follow = (waiting: WaitingFiles | null): void => {
    if (waiting === this.state.of) return;
    for (const timer of this.timers.values()) clearTimeout(timer);
    this.jobs.clear();
    this.places.clear();
    // What lists vehicles comes first: places on them are read by it.
    const drafts = (waiting?.asked ?? []).map(firstDraft).sort((a, b) => Number(listsUnits(b)) - Number(listsUnits(a)));
    this.change({
      of: waiting,
      drafts,
      at: Math.max(
        0,
        drafts.findIndex(({ left }) => !left),
      ),
    });
    for (const { source } of drafts) void this.tryNow(source.number);
  };

  readonly show = (at: number): void => this.change({ at });

  readonly edit = (source: number, change: (map: ColumnMap) => ColumnMap): void =>
    this.put(source, (draft) => ({ ...draft, map: change(draft.map) }));

  readonly answer = (source: number, ask: Ask, option: number): void => {
    this.put(source, (draft) => answered(draft, ask, option));
    if (ask.id !== 'table') return;
    const feeds = ask.options[option]?.set[0]?.value ?? this.draftOf(source)?.source.proposal.map.feeds;
    if (feeds !== undefined) void this.feed(source, feeds as Feeds);
  };

  /** Puts a map from elsewhere in the place of what is proposed; it has been confirmed once. */
  readonly take = (source: number, map: ColumnMap): void =>
    this.put(source, (draft) => ({
      ...draft,
      ...firstDraft({ ...draft.source, likely: true, map }),
      tried: draft.tried,
    }));

  readonly leave = (source: number, left: boolean): void => this.put(source, (draft) => ({ ...draft, left }));

  /** Has the rows of a source feed something else, and its columns proposed for that. */
  readonly feed = async (source: number, feeds: Feeds): Promise<void> => {
    const { of } = this.state;
    if (of === null) return;
    try {
      const proposed = await of.desk.proposeColumns(nextJob(), source, feeds);
      if (this.state.of === of) this.put(source, (draft) => fedOtherwise(draft, feeds, proposed));
    } catch (error) {
      if (this.state.of === of) this.set(source, (draft) => ({ ...draft, trouble: messageOf(error) }));
    }
  };

  /** Looks at where in its file the rows of a source may stand. */
  readonly look = async (source: number): Promise<void> => {
    const { of } = this.state;
    if (of === null) return;
    // Where nothing can be seen there is nothing to choose, and reading it says why.
    const look = await of.desk.lookAtPlaces(nextJob(), source).catch(() => null);
    if (look !== null && this.state.of === of) this.set(source, (draft) => ({ ...draft, look }));
  };

  /** Takes the rows of a source from another sheet, or from below another row of headers. */
  readonly place = async (source: number, where: SourceChoice): Promise<void> => {
    const { of } = this.state;
    if (of === null) return;
    const place = (this.places.get(source) ?? 0) + 1;
    this.places.set(source, place);
    const current = () => this.state.of === of && this.places.get(source) === place;
    try {
      const moved = await of.desk.takePlace(nextJob(), source, where);
      if (typeof moved === 'string') {
        if (current()) this.set(source, (draft) => ({ ...draft, misplaced: moved }));
        return;
      }
      if (this.state.of !== of) return;
      if (moved.behind) this.change({ drafts: [...this.state.drafts, firstDraft(moved.behind)] });
      this.put(source, (draft) => placedOtherwise(draft, moved.taken));
      if (moved.behind) void this.tryNow(moved.behind.number);
      await this.look(source);
    } catch (error) {
      if (current()) this.set(source, (draft) => ({ ...draft, misplaced: messageOf(error) }));
    }
  };

  /** Has one of their columns become one of ours in some tables; its unit and words are proposed. */
  readonly choose = async (
    source: number,
    header: string,
    tables: readonly TableName[],
    ours: string,
  ): Promise<void> => {
    const { of } = this.state;
    const [table] = tables;
    if (of === null || table === undefined) return;
    const made = await of.desk.proposeColumn(nextJob(), source, header, table, ours).catch(() => null);
    if (made === null || this.state.of !== of) return;
    this.edit(source, (map) => withProposed(map, tables, header, made));
  };

  private put(source: number, change: (draft: Draft) => Draft): void {
    this.set(source, change);
    clearTimeout(this.timers.get(source));
    this.timers.set(
      source,
      setTimeout(() => void this.tryNow(source), pause),
    );
  }

  private async tryNow(source: number): Promise<void> {
    const { of } = this.state;
    const draft = this.draftOf(source);
    if (of === null || !draft) return;
    const last = this.jobs.get(source);
    if (last !== undefined) void of.desk.abandon(last);
    const job = nextJob();
    this.jobs.set(source, job);
    const { map } = draft;
    const current = () => this.state.of === of && this.jobs.get(source) === job;
    try {
      for (const all of draft.source.whole ? [false] : [false, true]) {
        const tried = await of.desk.tryMap(job, source, map, all);
        if (!current()) return;
        this.set(source, (draft) => ({ ...draft, tried, triedMap: map, trouble: null }));
        if (tried.whole) break;
      }
      this.jobs.delete(source);
      if (draft.triedMap !== null && listsUnits(draft)) this.tryOthers(source);
    } catch (error) {
      if (current()) this.set(source, (draft) => ({ ...draft, trouble: messageOf(error) }));
    }
  }

  /** Places in other files are read by the vehicles that this one lists. */
  private tryOthers(source: number): void {
    for (const draft of this.state.drafts)
      if (draft.source.number !== source && !listsUnits(draft)) void this.tryNow(draft.source.number);
  }

  private draftOf(source: number): Draft | undefined {
    return this.state.drafts.find((draft) => draft.source.number === source);
  }

  private set(source: number, change: (draft: Draft) => Draft): void {
    const drafts = this.state.drafts.map((draft) => (draft.source.number === source ? change(draft) : draft));
    this.change({ drafts });
  }

  private change(part: Partial<DraftsState>): void {
    this.state = { ...this.state, ...part };
    for (const listener of this.listeners) listener();
  }
}

const listsUnits = ({ map }: Draft): boolean => fedTables(map.feeds).includes('units');

export const columnDrafts = new ColumnDrafts();
