import { createRandom } from '../../statistics/index.ts';
import { placesWhere } from '../gather.ts';

/** Places of the lives of vehicles drawn at random, about so many lives; null where all of them are no more. */
export function sampledVehicles(
  cluster: { readonly levels: readonly string[]; readonly codes: Int32Array },
  most: number,
  seed: number,
): Int32Array | null {
  const { length } = cluster.codes;
  if (length <= most) return null;
  const random = createRandom(seed);
  const drawn = Uint8Array.from(cluster.levels, () => (random.uniform() < most / length ? 1 : 0));
  return placesWhere(length, (place) => drawn[cluster.codes[place] as number] === 1);
}
