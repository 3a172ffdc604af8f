import type { ModelLives } from './compared-lives.ts';

export interface Discordant {
  /** Failures that happened while a life of the other side was at risk in the same stratum. */
  readonly failures: number;
  /** Strata that hold such a failure. */
  readonly pairs: number;
}

/** What a stratified comparison of a level with the reference (level 0) has to go by. */
export function discordant(
  { entry, exit, event }: Pick<ModelLives, 'entry' | 'exit' | 'event'>,
  strata: { readonly levels: readonly string[]; readonly codes: Int32Array },
  codes: Int32Array,
  level: number,
): Discordant {
  const sides = sidesByStratum(strata, codes, level);
  let [failures, pairs] = [0, 0];
  for (const places of sides.values()) {
    const found = places.filter(
      (place) =>
        event[place] === 1 &&
        places.some(
          (other) =>
            codes[other] !== codes[place] &&
            (entry[other] as number) < (exit[place] as number) &&
            (exit[other] as number) >= (exit[place] as number),
        ),
    ).length;
    failures += found;
    if (found > 0) pairs++;
  }
  return { failures, pairs };
}

/** Places of both sides in the strata that hold both: usually few of all. */
function sidesByStratum(
  strata: { readonly levels: readonly string[]; readonly codes: Int32Array },
  codes: Int32Array,
  level: number,
): ReadonlyMap<number, number[]> {
  const held = new Uint8Array(strata.levels.length);
  for (let place = 0; place < codes.length; place++) {
    const side = codes[place] === level ? 2 : codes[place] === 0 ? 1 : 0;
    const stratum = strata.codes[place] as number;
    held[stratum] = (held[stratum] as number) | side;
  }
  const sides = new Map<number, number[]>();
  for (let place = 0; place < codes.length; place++) {
    const stratum = strata.codes[place] as number;
    if (held[stratum] !== 3 || (codes[place] !== level && codes[place] !== 0)) continue;
    const places = sides.get(stratum);
    if (places) places.push(place);
    else sides.set(stratum, [place]);
  }
  return sides;
}
