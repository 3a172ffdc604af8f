import { createRandom } from '../../statistics/index.ts';
import { placesWhere } from '../gather.ts';

/** Of the vehicles drawn, and of shadows. */
export const sampleSeed = 1_130;

/** Places of the lives of vehicles drawn at random, about so many lives; null where all of them are no more. */
export function sampledVehicles(
  cluster: { readonly levels: readonly string[]; readonly codes: Int32Array },
  most: number,
): Int32Array | null {
  const { length } = cluster.codes;
  if (length <= most) return null;
  const random = createRandom(sampleSeed);
  const drawn = Uint8Array.from(cluster.levels, () => (random.uniform() < most / length ? 1 : 0));
  return placesWhere(length, (place) => drawn[cluster.codes[place] as number] === 1);
}
