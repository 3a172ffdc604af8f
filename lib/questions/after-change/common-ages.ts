/** As many lives have to be at risk at an age for it to count as reached. */
const fewestAtRisk = 10;

export interface CommonAges {
  readonly from: number;
  readonly to: number;
}

interface Ages {
  readonly entry: Float64Array;
  readonly exit: Float64Array;
}

/** The stretch from the first age to the last at which enough lives are at risk; null where never. */
function reachOf({ entry, exit }: Ages, places: Int32Array): CommonAges | null {
  const entries = Float64Array.from(places, (at) => entry[at] as number).sort();
  const exits = Float64Array.from(places, (at) => exit[at] as number).sort();
  let [from, to, gone] = [NaN, NaN, 0];
  for (let come = 0; come < entries.length; come++) {
    const age = entries[come] as number;
    while (gone < exits.length && (exits[gone] as number) <= age) gone++;
    if (come + 1 - gone >= fewestAtRisk) {
      from = age;
      break;
    }
  }
  if (Number.isNaN(from)) return null;
  let [left, back] = [0, entries.length];
  for (let at = exits.length - 1; at >= 0; at--) {
    const age = exits[at] as number;
    while (back > 0 && (entries[back - 1] as number) >= age) back--;
    left = exits.length - at - (entries.length - back);
    if (left >= fewestAtRisk) {
      to = age;
      break;
    }
  }
  return to > from ? { from, to } : null;
}

/** Ages that both cohorts reach with ten lives at risk each; null where there is none. */
export function commonAges(ages: Ages, cohorts: readonly [Int32Array, Int32Array]): CommonAges | null {
  const [one, other] = [reachOf(ages, cohorts[0]), reachOf(ages, cohorts[1])];
  if (one === null || other === null) return null;
  const [from, to] = [Math.max(one.from, other.from), Math.min(one.to, other.to)];
  return to > from ? { from, to } : null;
}

export interface WithinAges extends Ages {
  /** Places among the lives given. */
  readonly places: Int32Array;
  readonly event: Uint8Array;
}

/** Lives at the ages of a stretch alone: entered at its start at the earliest, left at its end at the latest. */
export function withinAges(
  lives: Ages & { readonly event: Uint8Array },
  places: Int32Array,
  { from, to }: CommonAges,
): WithinAges {
  const own = places.filter((at) => (lives.entry[at] as number) < to && (lives.exit[at] as number) > from);
  return {
    places: own,
    entry: Float64Array.from(own, (at) => Math.max(from, lives.entry[at] as number)),
    exit: Float64Array.from(own, (at) => Math.min(to, lives.exit[at] as number)),
    event: Uint8Array.from(own, (at) => ((lives.exit[at] as number) <= to ? (lives.event[at] as number) : 0)),
  };
}
