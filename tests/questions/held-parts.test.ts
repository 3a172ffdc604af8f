import { describe, expect, it } from 'vitest';
import { bytesIn, HeldParts } from '../../lib/questions/held-parts.ts';

/** Parts of a hundred bytes that count how often they were made. */
function countedPart(held: HeldParts, value: number) {
  const count = { made: 0 };
  const part = held.lazily(() => {
    count.made++;
    return { column: new Uint8Array(100).fill(value) };
  });
  return { part, count };
}

describe('parts held', () => {
  it('are made when first asked for, and once', () => {
    const { part, count } = countedPart(new HeldParts(1000), 1);
    expect(count.made).toBe(0);
    expect(part()).toBe(part());
    expect(count.made).toBe(1);
  });

  it('are let go, those asked for longest ago first, beyond what may be held, and made again alike', () => {
    const held = new HeldParts(250);
    const [one, two, three] = [1, 2, 3].map((value) => countedPart(held, value)) as [
      ReturnType<typeof countedPart>,
      ReturnType<typeof countedPart>,
      ReturnType<typeof countedPart>,
    ];
    one.part();
    two.part();
    one.part();
    three.part();
    expect(one.part().column[0]).toBe(1);
    expect(three.part().column[0]).toBe(3);
    expect([one.count.made, two.count.made, three.count.made]).toEqual([1, 1, 1]);
    expect(two.part().column[0]).toBe(2);
    expect([one.count.made, two.count.made, three.count.made]).toEqual([1, 2, 1]);
    expect(three.part().column[0]).toBe(3);
    expect(three.count.made).toBe(1);
  });

  it('one that is more than may be held is given all the same', () => {
    const held = new HeldParts(10);
    const { part, count } = countedPart(held, 7);
    expect(part().column).toEqual(new Uint8Array(100).fill(7));
    part();
    expect(count.made).toBe(1);
    countedPart(held, 8).part();
    expect(part().column[0]).toBe(7);
    expect(count.made).toBe(2);
  });

  it('a part made of another one lives on when that is let go', () => {
    const held = new HeldParts(150);
    const first = countedPart(held, 5);
    const doubled = held.lazily(() => first.part().column.map((value) => 2 * value));
    expect(doubled()[0]).toBe(10);
    expect(first.part().column[0]).toBe(5);
    expect(doubled()[0]).toBe(10);
  });

  it('count the bytes of typed arrays, however deep, each once', () => {
    const column = new Float64Array(10);
    expect(bytesIn({ column, parts: [new Int32Array(5), { column }], name: 'wheel ends', none: null })).toBe(100);
  });
});
