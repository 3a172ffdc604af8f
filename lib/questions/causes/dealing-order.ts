interface Levels {
  readonly levels: readonly string[];
  readonly codes: Int32Array;
}

/** One place a life. */
interface Dealt {
  readonly strata: Levels;
  /** The axle of a vehicle that each life sits at. */
  readonly axle: Levels;
  readonly exit: Float64Array;
  readonly entry: Float64Array;
}

/**
 * Places of the lives of each stratum in an order that the lives themselves give, not the table they lie in: what is
 * dealt out by chance is then the same from records and from the lives written from them.
 */
export function dealingOrder({ strata, axle, exit, entry }: Dealt): Int32Array[] {
  const places = strata.levels.map((): number[] => []);
  strata.codes.forEach((stratum, place) => (places[stratum] as number[]).push(place));
  const label = (place: number) => axle.levels[axle.codes[place] as number] as string;
  const byLabel = [...places.keys()].sort((a, b) =>
    (strata.levels[a] as string).localeCompare(strata.levels[b] as string, 'en'),
  );
  return byLabel.map((stratum) =>
    Int32Array.from(places[stratum] as number[]).sort(
      (a, b) =>
        (exit[a] as number) - (exit[b] as number) ||
        (entry[a] as number) - (entry[b] as number) ||
        label(a).localeCompare(label(b), 'en'),
    ),
  );
}
