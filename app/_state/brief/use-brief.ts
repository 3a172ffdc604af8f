'use client';

import { useSyncExternalStore } from 'react';
import { briefStore, type BriefState } from './brief-store.ts';

/** The brief in the making; the same for every part of the page. */
export const useBrief = (): BriefState =>
  useSyncExternalStore(briefStore.subscribe, briefStore.now, briefStore.atFirst);
