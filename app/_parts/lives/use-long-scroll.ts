'use client';

import { useCallback, useEffect, useLayoutEffect, useRef, useState, type KeyboardEvent, type UIEvent } from 'react';
import { movedTo, scrolledTo, spacerHeight, type LongScroll } from './long-scroll.ts';

export interface LongScrollInUse {
  readonly scroller: (element: HTMLDivElement | null) => void;
  readonly spacer: number;
  /** Where the rows stand, in pixels. */
  readonly offset: number;
  readonly onScroll: (event: UIEvent<HTMLDivElement>) => void;
  readonly onKeyDown: (event: KeyboardEvent<HTMLDivElement>) => void;
}

/** Scrolls any number of rows of one height within a view of another. @param list what is scrolled; another begins at its top */
export function useLongScroll(list: string, rows: number, rowHeight: number, view: number): LongScrollInUse {
  const whole = rows * rowHeight;
  const element = useRef<HTMLDivElement | null>(null);
  const now = useRef<LongScroll>({ whole, view, top: 0, offset: 0 });
  const [offset, setOffset] = useState(0);
  const settle = useCallback((scroll: LongScroll) => {
    now.current = scroll;
    if (element.current !== null && Math.abs(element.current.scrollTop - scroll.top) >= 1)
      element.current.scrollTop = scroll.top;
    setOffset(scroll.offset);
  }, []);
  useLayoutEffect(() => {
    now.current = { ...now.current, whole, view };
  }, [whole, view]);
  useEffect(() => settle({ ...now.current, top: 0, offset: 0 }), [list, settle]);
  const onScroll = useCallback(
    ({ currentTarget }: UIEvent<HTMLDivElement>) => {
      if (currentTarget.scrollTop !== now.current.top) settle(scrolledTo(now.current, currentTarget.scrollTop));
    },
    [settle],
  );
  const onKeyDown = useCallback(
    (event: KeyboardEvent<HTMLDivElement>) => {
      const to = event.key === 'Home' ? 0 : event.key === 'End' ? Infinity : null;
      if (to === null || event.target !== event.currentTarget) return;
      event.preventDefault();
      settle(movedTo(now.current, to));
    },
    [settle],
  );
  const scroller = useCallback((found: HTMLDivElement | null) => {
    element.current = found;
  }, []);
  return { scroller, spacer: spacerHeight({ whole, view }), offset, onScroll, onKeyDown };
}
