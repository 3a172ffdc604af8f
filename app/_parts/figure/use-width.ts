'use client';

import { useEffect, useState, type RefObject } from 'react';

/** Width of an element in whole pixels, once it is known; follows the window, not every pixel of a drag. */
export function useWidth(element: RefObject<HTMLElement | null>): number | null {
  const [width, setWidth] = useState<number | null>(null);
  useEffect(() => {
    if (!element.current) return;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const observer = new ResizeObserver(([entry]) => {
      const next = Math.floor(entry?.contentRect.width ?? 0);
      clearTimeout(timer);
      timer = setTimeout(() => setWidth((last) => (next === 0 ? last : next)), 60);
    });
    observer.observe(element.current);
    return () => {
      clearTimeout(timer);
      observer.disconnect();
    };
  }, [element]);
  return width;
}
