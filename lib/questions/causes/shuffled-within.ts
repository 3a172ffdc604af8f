import type { Random } from '../../statistics/index.ts';

/** Codes dealt out anew at random among the places of each stratum (Fisher & Yates); each keeps its number there. */
export function shuffledWithin(codes: Int32Array, strata: readonly Int32Array[], random: Random): Int32Array {
  const shuffled = codes.slice();
  for (const own of strata)
    for (let left = own.length - 1; left > 0; left--) {
      const [one, other] = [own[left] as number, own[random.below(left + 1)] as number];
      const kept = shuffled[one] as number;
      shuffled[one] = shuffled[other] as number;
      shuffled[other] = kept;
    }
  return shuffled;
}
