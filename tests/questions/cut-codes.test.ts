import { expect, it } from 'vitest';
import { narrowed, widened } from '../../lib/questions/columns/cut-codes.ts';

const labels = (count: number) => Array.from({ length: count }, (_, code) => `shop ${code}`);

it.each([
  [1_000, 3, 4],
  [300_000, 3, 1],
  [300_000, 256, 1],
  [300_000, 257, 2],
  [300_000, 65_536, 2],
  [300_000, 65_537, 4],
])('codes of %i lives with %i labels are kept in %i bytes each and come back as they were', (lives, count, bytes) => {
  const codes = Int32Array.from({ length: lives }, (_, life) => (life * 7919) % count);
  codes[lives - 1] = count - 1;
  const levels = labels(count);
  const kept = narrowed({ levels, codes });
  expect(kept.codes.BYTES_PER_ELEMENT).toBe(bytes);
  const back = widened(kept);
  expect(back.levels).toBe(levels);
  expect(back.codes).toHaveLength(lives);
  expect(back.codes.findIndex((code, life) => code !== codes[life])).toBe(-1);
});
