'use client';

import { useSyncExternalStore } from 'react';
import type { BroughtIn } from './bring-in-maps.ts';
import { mapsBroughtIn } from './brought-in.ts';

const none: readonly BroughtIn[] = [];

/** What became of the column maps that were brought in last. */
export const useMapsBroughtIn = (): readonly BroughtIn[] =>
  useSyncExternalStore(mapsBroughtIn.subscribe, mapsBroughtIn.now, () => none);
