'use client';

import { useEffect, useSyncExternalStore } from 'react';
import { columnMaps, type MapsState } from './keeping/column-map-store.ts';

/** The column maps that this browser keeps. */
export function useColumnMaps(): MapsState {
  const state = useSyncExternalStore(columnMaps.subscribe, columnMaps.now, columnMaps.atFirst);
  const unknown = state.kept === null;
  useEffect(() => {
    if (unknown) void columnMaps.load();
  }, [unknown]);
  return state;
}
