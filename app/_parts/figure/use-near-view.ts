'use client';

import { useEffect, useState, type RefObject } from 'react';

/** True from when an element first comes near the screen, or is about to be printed. */
export function useNearView(element: RefObject<HTMLElement | null>): boolean {
  const [near, setNear] = useState(false);
  useEffect(() => {
    if (near || !element.current) return;
    const come = () => setNear(true);
    const observer = new IntersectionObserver(
      (entries) => entries.some(({ isIntersecting }) => isIntersecting) && come(),
      {
        rootMargin: '300px',
      },
    );
    observer.observe(element.current);
    window.addEventListener('beforeprint', come);
    return () => {
      observer.disconnect();
      window.removeEventListener('beforeprint', come);
    };
  }, [element, near]);
  return near;
}
