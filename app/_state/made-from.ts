import type { LinkRecords } from '../../lib/view/index.ts';

/** What a link or a settings file that was opened here was made from. */
export interface Origin extends LinkRecords {
  readonly of: 'link' | 'settings file';
  /** As the settings file calls the records; a link does not say. */
  readonly name: string | null;
}

/** Outlives the address that said it: the view is changed, the records are still others. */
class MadeFrom {
  private state: Origin | null = null;
  private readonly listeners = new Set<() => void>();

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };
  readonly now = (): Origin | null => this.state;
  readonly atFirst = (): Origin | null => null;

  readonly set = (origin: Origin | null): void => {
    this.state = origin;
    for (const listener of this.listeners) listener();
  };
}

export const madeFrom = new MadeFrom();
