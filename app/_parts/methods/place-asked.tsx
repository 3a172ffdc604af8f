'use client';

import { useEffect } from 'react';

/** Puts the focus where a link from another page leads, so that it is seen and read out from there. */
export function PlaceAsked() {
  useEffect(() => {
    const place = document.getElementById(decodeURIComponent(window.location.hash.slice(1)));
    place?.focus({ preventScroll: true });
    place?.scrollIntoView({ block: 'start' });
  }, []);
  return null;
}
