'use client';

import { useEffect, useSyncExternalStore } from 'react';
import { useBrief } from './brief/use-brief.ts';
import { preferences, type Preferences } from './preferences.ts';
import { useKeptRecords } from './use-kept-records.ts';

export const usePreferences = (): Preferences =>
  useSyncExternalStore(preferences.subscribe, preferences.now, preferences.atFirst);

/** Lets preferences outlive the visit while records or the brief are kept in this browser. */
export function useAgreedToKeeping(): void {
  const { keeping } = useKeptRecords();
  const { kept } = useBrief();
  const agreed = keeping.is === 'kept' || kept;
  useEffect(() => preferences.agree(agreed), [agreed]);
}
