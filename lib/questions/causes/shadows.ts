import type { Random } from '../../statistics/index.ts';
import { attributeName } from '../words/group-words.ts';
import { listed } from '../words/share-words.ts';
import { levelCounts } from './level-counts.ts';
import { adjustedRatios, type Compared } from './ranking-ratios.ts';
import type { Ratio } from './ratios.ts';
import { shuffledWithin } from './shuffled-within.ts';

/** As the lives are dealt: `within shop`, or `among all lives` where shops are not told apart. */
export const dealtWithin = ({ lives: { lives } }: Compared): string =>
  lives.strataOf.length === 0 ? 'among all lives' : `within ${listed(lives.strataOf.map(attributeName))}`;

/** The ratios of the same lives with who had it dealt out at random within the strata: whatever they show is chance. */
export function shadowRatios(compared: Compared, level: number, random: Random): Ratio[] {
  const codes = shuffledWithin(compared.codes, compared.lives.dealing, random);
  const counts = levelCounts(compared.lives, codes, compared.exposure);
  return adjustedRatios({ ...compared, codes, counts }, level);
}
