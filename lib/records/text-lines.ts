import { isBlank, lineFeed } from './characters.ts';
import type { Chunks } from './record-source.ts';
import { joined } from './source-bytes.ts';

/** A line of text without its end; null stands for one longer than the limit, of which the beginning is in `start`. */
export interface TextLine {
  readonly line: number;
  readonly bytes: Uint8Array | null;
  readonly start: Uint8Array;
}

/** The lines of a text in batches, counted from 1, blank ones left out. */
export async function* textLines(
  chunks: Chunks,
  longest: number,
): AsyncGenerator<readonly TextLine[], void, undefined> {
  let line = 0;
  let held: Uint8Array[] = [];
  let length = 0;
  const take = (): TextLine | null => {
    line++;
    const bytes = joined(held);
    const tooLong = length > longest;
    held = [];
    length = 0;
    if (bytes.every(isBlank)) return null;
    return { line, bytes: tooLong ? null : bytes, start: bytes };
  };
  for await (const chunk of chunks) {
    const lines: TextLine[] = [];
    let from = 0;
    while (from < chunk.length) {
      const end = chunk.indexOf(lineFeed, from);
      const to = end < 0 ? chunk.length : end;
      // What goes beyond the limit is counted and not kept.
      if (length <= longest) held.push(chunk.subarray(from, Math.min(to, from + longest + 1)));
      length += to - from;
      from = to + 1;
      if (end < 0) break;
      const taken = take();
      if (taken) lines.push(taken);
    }
    if (lines.length > 0) yield lines;
  }
  const last = length > 0 ? take() : null;
  if (last) yield [last];
}
