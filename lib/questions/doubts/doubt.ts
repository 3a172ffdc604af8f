import type { Doubt } from '../../../shared/finding.ts';
import type { DoubtName } from '../../../shared/methods/doubts/index.ts';

/** A doubt that was checked: it fails, holds, or cannot be told. */
export function doubt(name: DoubtName, state: Doubt['state'], detail: string, settledBy: string): Doubt {
  return { name, state, detail, settledBy };
}

export const failsIf = (fails: boolean): 'fails' | 'holds' => (fails ? 'fails' : 'holds');

const order = { fails: 0, 'cannot-tell': 1, holds: 2 } as const;

/** Doubts with those that fail first; otherwise as given. */
export const failingFirst = (doubts: readonly (Doubt | null)[]): Doubt[] =>
  doubts.filter((one) => one !== null).sort((a, b) => order[a.state] - order[b.state]);
