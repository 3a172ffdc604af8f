'use client';

import { useEffect, useSyncExternalStore } from 'react';
import { useRecordSet } from '../use-record-set.ts';
import { columnDrafts, type DraftsState } from './column-drafts.ts';

/** The column maps in the making of the files that wait. */
export function useColumnDrafts(): DraftsState {
  const { waiting } = useRecordSet();
  useEffect(() => columnDrafts.follow(waiting), [waiting]);
  return useSyncExternalStore(columnDrafts.subscribe, columnDrafts.now, columnDrafts.atFirst);
}
