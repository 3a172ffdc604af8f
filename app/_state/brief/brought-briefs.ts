import { briefSchema, type Brief, type BriefPlan } from '../../../shared/brief.ts';
import { nextJob } from '../next-job.ts';
import { messageOf, type OpenRecordSet } from '../record-sets.ts';
import { briefStore } from './brief-store.ts';

/** Makes the brief that a file holds, saying what it is about meanwhile. */
export type MakeBrief = (told: (doing: string) => void) => Promise<Brief>;

export interface BroughtState {
  /** A brief that waits to be let in the place of the one begun here. */
  readonly waiting: { readonly name: string; readonly make: MakeBrief } | null;
  readonly doing: string | null;
  readonly said: string | null;
  readonly trouble: string | null;
}

const atFirst: BroughtState = { waiting: null, doing: null, said: null, trouble: null };

const begun = ({ title, words, photos, approvals, entries }: Brief): boolean =>
  title !== '' ||
  photos.length + approvals.length + entries.length > 0 ||
  Object.values(words).some((text) => (text ?? '').trim() !== '');

const counted = (count: number, one: string): string => `${count === 0 ? 'no' : count} ${one}${count === 1 ? '' : 's'}`;

/** `2 findings, words in 5 places, one photo`: what of a brief came in. */
function holds({ entries, words, photos, approvals }: Brief): string {
  const written = Object.values(words).filter((text) => (text ?? '').trim() !== '').length;
  return [
    counted(entries.length, 'finding'),
    `words in ${counted(written, 'place')}`,
    counted(photos.length, 'photo'),
    counted(approvals.length, 'approval'),
  ].join(', ');
}

/** Briefs that files hold: one takes the place of a brief begun here only where its writer says so. */
class BroughtBriefs {
  private state = atFirst;
  private readonly listeners = new Set<() => void>();

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };
  readonly now = (): BroughtState => this.state;
  readonly atFirst = (): BroughtState => atFirst;

  readonly bringIn = async (name: string, make: MakeBrief): Promise<void> => {
    if (begun(briefStore.now().brief)) this.change({ ...atFirst, waiting: { name, make } });
    else await this.take(name, make);
  };

  /** The brief that waits takes the place of the one here. */
  readonly letIn = async (): Promise<void> => {
    const { waiting } = this.state;
    if (waiting !== null) await this.take(waiting.name, waiting.make, briefStore.now().brief);
  };

  readonly leave = (): void => this.change(atFirst);

  /** @param known the brief that may be replaced; whatever else was begun while this one was made stands */
  private async take(name: string, make: MakeBrief, known?: Brief): Promise<void> {
    this.change({ ...atFirst, doing: `Reading ${name}` });
    try {
      const made = await make((doing) => this.change({ doing }));
      const here = briefStore.now().brief;
      if (begun(here) && here !== known) {
        this.change({ ...atFirst, waiting: { name, make: () => Promise.resolve(made) } });
        return;
      }
      briefStore.edit(() => made);
      this.change({ ...atFirst, said: `The brief of ${name} is here: ${holds(made)}.` });
    } catch (error) {
      this.change({ ...atFirst, trouble: `The brief of ${name} was not taken: ${messageOf(error)}.` });
    }
  }

  private change(part: Partial<BroughtState>): void {
    this.state = { ...this.state, ...part };
    for (const listener of this.listeners) listener();
  }
}

export const broughtBriefs = new BroughtBriefs();

/** Asks what a plan asks, of the records that are open. */
export const briefOfPlan =
  ({ asks, ...words }: BriefPlan, open: OpenRecordSet): MakeBrief =>
  async (told) => {
    const entries = [];
    for (const [at, { question, view, units, note }] of asks.entries()) {
      told(`Asking ${at + 1} of ${asks.length} findings of the brief`);
      const finding = await open.desk.ask(nextJob(), question, view, units);
      entries.push({ id: crypto.randomUUID(), finding, units, note });
    }
    return briefSchema.parse({ brief: 1, ...words, entries });
  };
