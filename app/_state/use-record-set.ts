'use client';

import { useSyncExternalStore } from 'react';
import { recordSets, type RecordSetState } from './record-sets.ts';

/** What is open, being opened, or in trouble; the same for every part of the page. */
export const useRecordSet = (): RecordSetState =>
  useSyncExternalStore(recordSets.subscribe, recordSets.now, recordSets.atFirst);
