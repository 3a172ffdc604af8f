import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { movedTo, scrolledTo, spacerHeight, topFor, type LongScroll } from '../../app/_parts/lives/long-scroll.ts';

const at = (rows: number, top = 0, offset = 0): LongScroll => ({ whole: rows * 34, view: 578, top, offset });
const million = at(1_000_000);
const ten = at(10_000_000);

test('a list that a browser can lay out scrolls as any other', () => {
  expect(spacerHeight(at(1000))).toBe(34_000);
  expect(scrolledTo(at(1000), 12_345)).toMatchObject({ top: 12_345, offset: 12_345 });
  expect(spacerHeight(at(3))).toBe(578);
  expect(scrolledTo(at(3), 0).offset).toBe(0);
});

describe('a list taller than that', () => {
  test('has a spacer that every browser lays out', () => {
    expect(spacerHeight(ten)).toBeLessThan(17_000_000);
  });

  test('moves row by row with the wheel, and to its ends with the scrollbar', () => {
    expect(scrolledTo(movedTo(million, 17_000_000), topFor(million, 17_000_000) + 100).offset).toBeCloseTo(
      17_000_100,
      3,
    );
    const most = spacerHeight(ten) - ten.view;
    expect(scrolledTo(ten, most).offset).toBe(ten.whole - ten.view);
    expect(scrolledTo({ ...ten, top: most, offset: ten.whole - ten.view }, 0).offset).toBe(0);
    expect(scrolledTo(ten, most / 2).offset).toBeCloseTo((ten.whole - ten.view) / 2, 0);
  });

  test('wheeled up from anywhere, it shows every row down to the first', () => {
    let scroll = scrolledTo(ten, 3_000);
    const seen: number[] = [];
    for (let turn = 0; turn < 2_000 && scroll.offset > 0; turn++) {
      scroll = scrolledTo(scroll, Math.max(0, scroll.top - 300));
      seen.push(scroll.offset);
    }
    expect(scroll.offset).toBe(0);
    seen.slice(1).forEach((offset, turn) => expect((seen[turn] as number) - offset).toBeLessThanOrEqual(300 + 1e-6));
  });

  test('never leaves its bounds, whatever is done to it', () => {
    const step = fc.oneof(fc.integer({ min: -400, max: 400 }), fc.integer({ min: -2e7, max: 2e7 }));
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 12_000_000 }), fc.array(step, { maxLength: 40 }), (rows, steps) => {
        let scroll = at(rows);
        const most = spacerHeight(scroll) - scroll.view;
        for (const by of steps) {
          scroll = scrolledTo(scroll, Math.min(most, Math.max(0, scroll.top + by)));
          expect(scroll.offset).toBeGreaterThanOrEqual(0);
          expect(scroll.offset).toBeLessThanOrEqual(Math.max(0, scroll.whole - scroll.view));
          expect(scroll.top).toBeGreaterThanOrEqual(0);
          expect(scroll.top).toBeLessThanOrEqual(most);
        }
      }),
    );
  });
});
