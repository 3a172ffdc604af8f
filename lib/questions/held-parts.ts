/** What one question keeps of parts that can be made again: of fifty thousand lives all of them, of a million some. */
const mostBytes = 192 * 2 ** 20;

/** Bytes of the typed arrays in a plain value, each counted once. */
export function bytesIn(value: unknown, seen = new Set<unknown>()): number {
  if (typeof value !== 'object' || value === null || seen.has(value)) return 0;
  seen.add(value);
  if (ArrayBuffer.isView(value)) return value.byteLength;
  return Object.values(value).reduce<number>((sum, part) => sum + bytesIn(part, seen), 0);
}

interface Slot {
  bytes: number;
  readonly letGo: () => void;
}

/**
 * Parts worked out of many lives that may be asked for again. Beyond so many bytes those asked for
 * longest ago are let go, and made again where they are asked for.
 */
export class HeldParts {
  /** By when they were last asked for. */
  readonly #slots = new Set<Slot>();
  #bytes = 0;

  constructor(private readonly most = mostBytes) {}

  /** Gives what `make` makes: kept from the last time, or made now. */
  lazily<Value>(make: () => Value): () => Value {
    let kept: { readonly value: Value } | null = null;
    const slot: Slot = { bytes: 0, letGo: () => (kept = null) };
    return () => {
      this.#slots.delete(slot);
      const { value } = kept ?? { value: make() };
      if (kept === null) {
        kept = { value };
        slot.bytes = bytesIn(value);
        this.#bytes += slot.bytes;
      }
      this.#slots.add(slot);
      this.#makeRoom(slot);
      return value;
    };
  }

  #makeRoom(latest: Slot): void {
    for (const slot of this.#slots) {
      if (this.#bytes <= this.most || slot === latest) return;
      this.#slots.delete(slot);
      this.#bytes -= slot.bytes;
      slot.letGo();
    }
  }
}
