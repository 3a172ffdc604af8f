import { count } from '../words/wording.ts';
import { ComparedLives, someLives } from './compared-lives.ts';
import { partOf } from './part-of.ts';
import type { RankedGroup } from './ranked-group.ts';
import type { Compared } from './ranking-ratios.ts';
import { sampledVehicles } from './sampled-vehicles.ts';

/** Beyond so many lives what stands beside the ratio is worked out over whole vehicles drawn. */
const mostLivesBeside = 200_000;
/** Estimates of the first ranking, over all lives. */
const isFirst = (name: string): boolean => /^(failuresPer|crudeHazardRatio$|hazardRatio$|eValue$)/.test(name);

/** Samples of lives, which exposures that can exist in the same lives share. */
export class Samples {
  readonly #known = new Map<ComparedLives, { readonly places: Int32Array; readonly lives: ComparedLives }>();

  of(compared: Compared): Compared {
    const { lives } = compared;
    if (lives.rows <= mostLivesBeside) return compared;
    const known = this.#known.get(lives);
    if (known) return partOf(compared, known.places, known.lives);
    const places = sampledVehicles(lives.lives.cluster, mostLivesBeside);
    if (places === null) return compared;
    const part = partOf(compared, places, new ComparedLives(someLives(lives.lives, places), null, lives.held));
    this.#known.set(lives, { places, lives: part.lives });
    return part;
  }
}

/** That a number rests on a sample of the vehicles, where it does. */
export const overDrawn = (some: number, all: number): string =>
  some === all ? '' : `; over ${count(some)} of ${count(all)} lives, whole vehicles drawn`;

/** The estimates just made rest on a sample of the vehicles. */
export function sayDrawn(groups: readonly RankedGroup[], some: number, all: number): void {
  for (const { estimates } of groups)
    for (const [name, estimate] of Object.entries(estimates))
      if (!isFirst(name)) estimates[name] = { ...estimate, method: `${estimate.method}${overDrawn(some, all)}` };
}
