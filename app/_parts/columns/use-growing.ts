'use client';

import { useEffect, useState } from 'react';

const atOnce = 6;

/** How many of so many rows to show: some more with every frame, so that a long table never holds the page up. */
export function useGrowing(all: number): number {
  const [shown, setShown] = useState(atOnce);
  useEffect(() => {
    if (shown >= all) return;
    const next = requestAnimationFrame(() => setShown(shown + atOnce));
    return () => cancelAnimationFrame(next);
  }, [shown, all]);
  return Math.min(shown, all);
}
