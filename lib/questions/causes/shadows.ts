import type { Random } from '../../statistics/index.ts';
import { levelCounts } from './level-counts.ts';
import { adjustedRatios, type Compared } from './ranking-ratios.ts';
import type { Ratio } from './ratios.ts';
import { shuffledWithin } from './shuffled-within.ts';

/** The ratios of the same lives with who had it dealt out at random within shops: whatever they show is chance. */
export function shadowRatios(compared: Compared, level: number, random: Random): Ratio[] {
  const codes = shuffledWithin(compared.codes, compared.lives.dealing, random);
  const counts = levelCounts(compared.lives, codes, compared.exposure);
  return adjustedRatios({ ...compared, codes, counts }, level);
}
