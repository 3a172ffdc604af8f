import { gather } from '../gather.ts';
import { ComparedLives, someLives } from './compared-lives.ts';
import { levelCounts } from './level-counts.ts';
import type { Compared } from './ranking-ratios.ts';

/** The comparison among some of its lives, by their places; `lives` where others share them. */
export function partOf(
  compared: Compared,
  places: Int32Array,
  lives = new ComparedLives(someLives(compared.lives.lives, places), null),
): Compared {
  const codes = gather(compared.codes, places);
  return { ...compared, lives, codes, counts: levelCounts(lives, codes, compared.exposure) };
}
