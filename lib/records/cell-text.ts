import { isBlank, quote } from './characters.ts';

const strict = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
const lenient = new TextDecoder('utf-8', { ignoreBOM: true });
const encoder = new TextEncoder();

/** Bytes as text for a reader's eyes; what is no UTF-8 shows as U+FFFD. */
export const shownText = (bytes: Uint8Array): string => lenient.decode(bytes);

/**
 * One cell made ready for reading: its doubled quotes single, its outer spaces gone. Holds the last
 * cell it was given; `bytes[start … end)` may lie in the record itself.
 */
export class CellText {
  bytes: Uint8Array = new Uint8Array(0);
  start = 0;
  end = 0;
  /** Room for a cell whose quotes were doubled. */
  #room = new Uint8Array(0);

  /** A text as it is, its outer spaces included. */
  static of(text: string): CellText {
    const cell = new CellText();
    cell.bytes = encoder.encode(text);
    cell.end = cell.bytes.length;
    return cell;
  }

  /** @returns false where the bytes are not UTF-8 text */
  take(bytes: Uint8Array, start: number, end: number, doubled: boolean, wide: boolean): boolean {
    this.bytes = bytes;
    this.start = start;
    this.end = end;
    if (doubled) this.#single();
    if (wide) return this.#trimWide();
    while (this.start < this.end && isBlank(this.bytes[this.start]!)) this.start++;
    while (this.end > this.start && isBlank(this.bytes[this.end - 1]!)) this.end--;
    return true;
  }

  copy(other: CellText): void {
    // What stands in the other's own room is gone with its next cell.
    this.bytes = other.bytes === other.#room ? other.bytes.slice() : other.bytes;
    this.start = other.start;
    this.end = other.end;
  }

  get blank(): boolean {
    return this.start === this.end;
  }

  #single(): void {
    if (this.end - this.start > this.#room.length) this.#room = new Uint8Array(2 * (this.end - this.start));
    const { bytes, end } = this;
    const room = this.#room;
    let length = 0;
    for (let at = this.start; at < end; at++) {
      const byte = (room[length++] = bytes[at]!);
      if (byte === quote) at++;
    }
    this.bytes = room;
    this.start = 0;
    this.end = length;
  }

  /** Beyond ASCII there are spaces of many kinds, which only a string knows. */
  #trimWide(): boolean {
    try {
      const text = strict.decode(this.bytes.subarray(this.start, this.end));
      this.bytes = encoder.encode(text.trim());
      this.start = 0;
      this.end = this.bytes.length;
      // The mark of a text that was damaged before it came here.
      return !text.includes('\uFFFD');
    } catch {
      return false;
    }
  }
}
