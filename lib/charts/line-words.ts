import type { Group } from '../../shared/finding.ts';

/** The notes of a line by what they are about. */
interface LineWords {
  /** What it is thought to do, when that would tell, and when it is seen. */
  readonly mechanism: string | null;
  readonly critical: CriticalWords | null;
  readonly others: readonly string[];
}

/** The cases of a safety-critical deviation. */
interface CriticalWords {
  /** How many failed, and how many of them are listed. */
  readonly said: string;
  readonly cases: readonly string[];
}

const criticalStart = 'Safety-critical:';

function criticalWords(note: string): CriticalWords {
  // `Safety-critical: the rule. 12 failed cases; the first 15 of …: case; case.`
  const after = note.slice(note.indexOf('. ') + 2).replace(/\.$/, '');
  const colon = after.indexOf(': ');
  if (colon < 0) return { said: `${after}.`, cases: [] };
  return { said: after.slice(0, colon), cases: after.slice(colon + 2).split('; ') };
}

/** The notes of a group of a ranking, told apart. */
export function lineWords({ notes = [] }: Group): LineWords {
  const critical = notes.find((note) => note.startsWith(criticalStart));
  const mechanism = notes.find((note) => note.includes('engineering judgement')) ?? null;
  return {
    mechanism,
    critical: critical === undefined ? null : criticalWords(critical),
    others: notes.filter((note) => note !== critical && note !== mechanism),
  };
}
