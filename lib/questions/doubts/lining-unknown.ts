import type { Doubt } from '../../../shared/finding.ts';
import { ofHundred, percent } from '../words/share-words.ts';
import { count } from '../words/wording.ts';
import { doubt, failsIf } from './doubt.ts';

/** Seal leaks by what was written down of the lining. */
export interface LiningTold {
  readonly soaked: number;
  readonly clean: number;
  readonly unknown: number;
  /** Limits shown for the share among those that tell. */
  readonly lower: number | null;
  readonly upper: number | null;
}

/** Leaks that say nothing of the lining, bounded both ways. Fails where a bound leaves the limits shown. */
export function liningUnknown({ soaked, clean, unknown, lower, upper }: LiningTold): Doubt | null {
  const all = soaked + clean + unknown;
  if (all === 0) return null;
  const name = 'Lining not told';
  const settledBy = 'the lining written down with every leak, soaked or not';
  if (unknown === 0) return doubt(name, 'holds', 'Every seal leak says whether the lining was soaked.', settledBy);
  const [low, high] = [soaked / all, (soaked + unknown) / all];
  const detail = `${percent(unknown / all)} of seal leaks (${count(unknown)}) say nothing of the lining; the share lies between ${ofHundred(low)}, had none of those reached it, and ${ofHundred(high)}, had all.`;
  return doubt(name, failsIf(low < (lower ?? 0) || high > (upper ?? 1)), detail, settledBy);
}
