/**
 * Scrolling over rows that together are taller than any element a browser lays out. The element that
 * scrolls is at most `tallest` high; small movements of it move the rows by as much, so that no row is
 * ever passed over, and large ones (a scrollbar dragged) move them in proportion.
 */
export interface LongScroll {
  /** Height of all rows, in pixels. */
  readonly whole: number;
  /** Height of what is seen of them. */
  readonly view: number;
  /** Where the element stands. */
  readonly top: number;
  /** Where the rows stand. */
  readonly offset: number;
}

/** Browsers lay out no more than about 17.8 million pixels (Firefox) or 33.5 million (Chromium). */
const tallest = 10_000_000;

export const spacerHeight = ({ whole, view }: Pick<LongScroll, 'whole' | 'view'>): number =>
  Math.max(view, Math.min(whole, tallest));

const within = (value: number, most: number): number => Math.min(Math.max(0, value), Math.max(0, most));

const ends = (scroll: LongScroll) => ({
  mostTop: Math.max(0, spacerHeight(scroll) - scroll.view),
  mostOffset: Math.max(0, scroll.whole - scroll.view),
});

/** Where the element belongs when the rows stand at `offset`. */
export function topFor(scroll: LongScroll, offset: number): number {
  const { mostTop, mostOffset } = ends(scroll);
  return mostOffset === 0 ? 0 : (offset / mostOffset) * mostTop;
}

/** The rows moved to an offset, and the element with them. */
export function movedTo(scroll: LongScroll, offset: number): LongScroll {
  const kept = within(offset, ends(scroll).mostOffset);
  return { ...scroll, offset: kept, top: topFor(scroll, kept) };
}

/**
 * The element was scrolled to `top`. What comes back may have another `top`: the element reached its
 * end before the rows did, and has to be set back so that they can be scrolled on.
 */
export function scrolledTo(scroll: LongScroll, top: number): LongScroll {
  const { mostTop, mostOffset } = ends(scroll);
  const moved = top - scroll.top;
  if (scroll.whole <= tallest) return { ...scroll, top, offset: within(top, mostOffset) };
  if (Math.abs(moved) > 4 * scroll.view)
    return { ...scroll, top, offset: within((top / mostTop) * mostOffset, mostOffset) };
  const offset = within(scroll.offset + moved, mostOffset);
  // Room enough for some turns of the wheel: an element at its very end would hear of none.
  const room = 3 * scroll.view;
  if (top <= 0 && offset > 0)
    return { ...scroll, offset, top: Math.max(topFor(scroll, offset), Math.min(offset, room)) };
  const left = mostOffset - offset;
  if (top >= mostTop && left > 0)
    return { ...scroll, offset, top: Math.min(topFor(scroll, offset), mostTop - Math.min(left, room)) };
  return { ...scroll, offset, top };
}
