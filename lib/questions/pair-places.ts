/**
 * Numbers the pairs of a group and a code in order of appearance, so that sums can be kept a pair.
 * A table serves where it is small, else a map.
 */
export class PairPlaces {
  readonly #width: number;
  readonly #table: Int32Array | null;
  readonly #map = new Map<number, number>();
  #pairs = 0;

  constructor(groups: number, codes: number) {
    this.#width = codes;
    this.#table = groups * codes <= 4_000_000 ? new Int32Array(groups * codes).fill(-1) : null;
  }

  get pairs(): number {
    return this.#pairs;
  }

  /** The pair's place, a new one where it has none yet. */
  place(group: number, code: number): number {
    const key = group * this.#width + code;
    const known = this.#table ? (this.#table[key] as number) : (this.#map.get(key) ?? -1);
    if (known >= 0) return known;
    if (this.#table) this.#table[key] = this.#pairs;
    else this.#map.set(key, this.#pairs);
    return this.#pairs++;
  }
}
