type Numbers = Float64Array | Int32Array | Uint8Array;

/**
 * Room for the values of rows, used again and again: while what was taken is on its way, the next rows fill
 * another. What holds a batch waits for the one before to arrive, so that two are enough.
 */
export class RowRoom<T extends Numbers> {
  values: T;
  #other: T | null = null;

  constructor(
    private readonly make: new (length: number) => T,
    length: number,
  ) {
    this.values = new make(length);
  }

  /** Makes room for more, what is held staying. */
  widen(length: number): void {
    const held = this.values;
    this.values = new this.make(length);
    this.values.set(held);
  }

  /** Gives what is held, which stands until the next time, and begins again. */
  taken(): T {
    const held = this.values;
    this.values = this.#other?.length === held.length ? this.#other : new this.make(held.length);
    this.#other = held;
    return held;
  }
}
