/**
 * Remembers ids by a 64-bit hash of their bytes, eight bytes an id, where a Map of strings would take
 * a hundred and end at 16 million. Two ids may share a hash: "seen" is a suspicion, to be settled by
 * comparing the ids themselves; "not seen" is certain.
 */
export class IdentityIndex {
  #slots = new Uint32Array(2 * 2 ** 12);
  #count = 0;

  /** Adds an id; true if it, or another of the same hash, was there before. */
  add(bytes: Uint8Array, start: number, end: number): boolean {
    if (this.#count * 2 > this.#slots.length / 2) this.#grow();
    let low = 0x811c9dc5;
    let high = 0x9747b28c;
    const last = bytes[end - 1] ?? 0;
    for (let at = start; at < end - 1; at++) {
      low = Math.imul(low ^ bytes[at]!, 0x01000193);
      high = Math.imul(high ^ bytes[at]!, 0x5bd1e995);
      high ^= high >>> 15;
    }
    low = Math.imul(low ^ (low >>> 15), 0x85ebca6b);
    low ^= low >>> 13;
    high = Math.imul(high ^ last, 0x5bd1e995);
    // Ids that are counted up, as most are, so come to lie side by side: each jump in memory has to be waited for.
    // The pair of zeros stands for an empty slot.
    return this.#place((low + last) >>> 0 || 1, (high ^ (high >>> 15) ^ (end - start)) >>> 0);
  }

  #place(low: number, high: number): boolean {
    const slots = this.#slots;
    const mask = slots.length / 2 - 1;
    for (let slot = low & mask; ; slot = (slot + 1) & mask) {
      if (slots[slot * 2] === 0) {
        slots[slot * 2] = low;
        slots[slot * 2 + 1] = high;
        this.#count++;
        return false;
      }
      if (slots[slot * 2] === low && slots[slot * 2 + 1] === high) return true;
    }
  }

  #grow(): void {
    const held = this.#slots;
    this.#slots = new Uint32Array(held.length * 2);
    this.#count = 0;
    for (let slot = 0; slot < held.length; slot += 2) if (held[slot] !== 0) this.#place(held[slot]!, held[slot + 1]!);
  }
}
