import type { Procedure } from '../../shared/procedure.ts';
import type { JudgementsChanged } from './lives-desk.ts';

/** The procedure as it is being edited, and what the last one applied has changed; of one record set. */
export interface DraftState {
  /** Fingerprint of the records it belongs to. */
  readonly of: string;
  /** Null: as it is applied. */
  readonly draft: readonly Procedure[] | null;
  /** What judged the lives before, to go back to. */
  readonly before: readonly Procedure[] | null;
  readonly changed: JudgementsChanged | null;
}

const nothing: DraftState = { of: '', draft: null, before: null, changed: null };

/** Kept outside the page, so that looking at an answer meanwhile loses nothing. */
class ProcedureDraft {
  private state = nothing;
  private readonly listeners = new Set<() => void>();

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };
  readonly now = (): DraftState => this.state;
  readonly atFirst = (): DraftState => nothing;

  readonly edit = (of: string, draft: readonly Procedure[] | null): void => this.change(of, { draft });
  readonly applied = (of: string, before: readonly Procedure[], changed: JudgementsChanged): void =>
    this.change(of, { draft: null, before, changed });

  private change(of: string, part: Partial<DraftState>): void {
    const kept = this.state.of === of ? this.state : nothing;
    this.state = { ...kept, ...part, of };
    for (const listener of this.listeners) listener();
  }
}

export const procedureDraft = new ProcedureDraft();
