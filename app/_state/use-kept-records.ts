'use client';

import { useSyncExternalStore } from 'react';
import { keptRecords, type KeptState } from './keeping/kept-records.ts';

/** Whether the open records are kept across visits; the same for every part of the page. */
export const useKeptRecords = (): KeptState =>
  useSyncExternalStore(keptRecords.subscribe, keptRecords.now, keptRecords.atFirst);
